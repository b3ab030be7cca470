"""Cut trees: what a plan must be, and that the proof finds every way of not being one."""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Callable

import pytest

from cabinet.errors import CabinetError, DesignError, SizeError
from cabinet.making.guillotine import (
    Axis,
    CutPlan,
    Node,
    Piece,
    Sheet,
    SheetCuts,
    saw,
    to_grid,
)

KERF = 3.2
SHEET = Sheet(name="birch", length=1237.5, width=629.3, trim=7.25, count=1)
# Within its edges 1223 x 614.8.
SHELF = Piece(name="shelf", length=613.4, width=287.6)
CLEAT = Piece(name="cleat", length=93.1, width=613.4, may_turn=True)


def node(length: float, width: float, piece: str = "") -> Node:
    """A part that is not cut."""
    return Node(length=length, width=width, piece=piece)


def row(axis: Axis, length: float, width: float, *parts: Node) -> Node:
    """A part that is cut along ``axis``."""
    return Node(length=length, width=width, axis=axis, parts=parts)


def good() -> Node:
    """Shelf and turned cleat above one another, a rest beside both."""
    left = row(
        Axis.WIDTH,
        613.4,
        614.8,
        node(613.4, 287.6, "shelf"),
        node(613.4, 93.1, "cleat"),
        node(613.4, 227.7),
    )
    return row(Axis.LENGTH, 1223, 614.8, left, node(606.4, 614.8))


def planned(root: Node, kerf: float = KERF, sheets: int = 1) -> CutPlan:
    """A plan that cuts so many sheets alike."""
    return CutPlan(kerf=kerf, sheets=(SheetCuts(sheet=SHEET, root=root),) * sheets)


def test_plan_is_sawn_with_everything_in_place() -> None:
    """By hand: places from the sheet's own corner, one kerf between parts, areas to the last."""
    sawn = saw(planned(good()), [SHELF, CLEAT])
    shelf, cleat = sawn.pieces
    assert (shelf.piece, shelf.x, shelf.y, shelf.is_turned) == ("shelf", 7.25, 7.25, False)
    assert (cleat.piece, cleat.x, cleat.y, cleat.is_turned) == ("cleat", 7.25, 298.05, True)
    assert [(r.x, r.y, r.length, r.width) for r in sawn.rests] == [
        (7.25, 394.35, 613.4, 227.7),
        (623.85, 7.25, 606.4, 614.8),
    ]
    assert [(s.x, s.y, s.length, s.width) for s in sawn.strips] == [
        (620.65, 7.25, 3.2, 614.8),
        (7.25, 294.85, 613.4, 3.2),
        (7.25, 391.15, 613.4, 3.2),
    ]
    assert sawn.sheet_area == to_grid(1237.5) * to_grid(629.3)
    assert sawn.trim_area == sawn.sheet_area - to_grid(1223) * to_grid(614.8)
    total = sawn.piece_area + sawn.rest_area + sawn.dust_area + sawn.trim_area
    assert total == sawn.sheet_area


def test_last_cut_may_run_along_the_edge() -> None:
    """With 2.1 left beyond the shelf and a kerf of 3.2 the cut takes all of it."""
    sheet = Sheet(name="offcut", length=615.5, width=287.6)
    cut = row(Axis.LENGTH, 615.5, 287.6, node(613.4, 287.6, "shelf"))
    plan = CutPlan(kerf=3.2, sheets=(SheetCuts(sheet=sheet, root=cut),))
    sawn = saw(plan, [SHELF])
    assert [strip.length for strip in sawn.strips] == [2.1]
    thin = dataclasses.replace(plan, kerf=2.0)
    with pytest.raises(DesignError, match=r"add up to 615\.4 mm and must make 615\.5"):
        saw(thin, [SHELF])


WRONG: dict[str, tuple[Callable[[], object], str, str]] = {
    "missing": (lambda: saw(planned(node(1223, 614.8)), [SHELF]), "shelf", "not cut"),
    "stranger": (lambda: saw(planned(good()), [SHELF]), "cleat", "nobody asked"),
    "twice": (lambda: saw(planned(good(), sheets=2), [SHELF, CLEAT]), "shelf", "twice"),
    "turned": (
        lambda: saw(planned(good()), [SHELF, dataclasses.replace(CLEAT, may_turn=False)]),
        "cleat",
        "not turned",
    ),
    "other size": (
        lambda: saw(planned(good()), [dataclasses.replace(SHELF, width=287.601), CLEAT]),
        "shelf",
        "must be 613.4 x 287.601",
    ),
    "other kerf": (
        lambda: saw(planned(good(), kerf=3.201), [SHELF, CLEAT]),
        "sheet 1",
        "add up",
    ),
    "across": (
        lambda: saw(
            planned(row(Axis.LENGTH, 1223, 614.8, node(613.4, 287.6, "shelf"), node(606.4, 614.8))),
            [SHELF],
        ),
        "sheet 1",
        "across its cut",
    ),
    "other sheet": (
        lambda: saw(planned(node(1237.5, 629.3)), [SHELF]),
        "sheet 1",
        "trimmed edges",
    ),
    "too many sheets": (
        lambda: saw(planned(node(1223, 614.8), sheets=2), []),
        "birch",
        "2 are cut and there are 1",
    ),
}


@pytest.mark.parametrize("name", WRONG)
def test_what_is_no_plan_is_refused(name: str) -> None:
    """Each is wrong in one way, and the message names the sheet or the piece."""
    make, part, says = WRONG[name]
    with pytest.raises(DesignError) as caught:
        make()
    assert caught.value.part == part
    assert says in str(caught.value)


BAD: dict[str, tuple[Callable[[], object], str, str]] = {
    "piece of no length": (lambda: Piece(name="rail", length=0, width=70), "rail", "length"),
    "piece below the grid": (
        lambda: Piece(name="rail", length=613, width=0.0004),
        "rail",
        "width",
    ),
    "piece of no number": (
        lambda: Piece(name="rail", length=math.nan, width=70),
        "rail",
        "length",
    ),
    "piece of no name": (lambda: Piece(name=" ", length=613, width=70), "piece", "name"),
    "sheet of no width": (lambda: Sheet(name="oak", length=9, width=-1), "oak", "width"),
    "nothing but trim": (
        lambda: Sheet(name="oak", length=900, width=600, trim=300),
        "oak",
        "trim",
    ),
    "no sheets": (lambda: Sheet(name="oak", length=900, width=600, count=0), "oak", "count"),
    "negative kerf": (lambda: CutPlan(kerf=-0.1, sheets=()), "saw", "kerf"),
    "node of no size": (lambda: node(0, 20), "part of a sheet", "length"),
    "piece cut further": (
        lambda: Node(length=9, width=8, piece="rail", axis=Axis.LENGTH, parts=(node(9, 8),)),
        "rail",
        "not cut further",
    ),
    "axis without parts": (
        lambda: Node(length=9, width=8, axis=Axis.LENGTH),
        "part of a sheet",
        "belong together",
    ),
}


@pytest.mark.parametrize("name", BAD)
def test_bad_numbers_are_refused_when_made(name: str) -> None:
    """One clear error each, that names the owner and the number."""
    make, part, says = BAD[name]
    with pytest.raises(SizeError) as caught:
        make()
    assert isinstance(caught.value, CabinetError)
    assert caught.value.part == part
    assert says in str(caught.value)
