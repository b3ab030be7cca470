"""Patches, told in the blank's own frame whichever way it lies."""

from __future__ import annotations

import pytest

from cabinet.frame import Side
from cabinet.making.blanks import Blank, blanks
from cabinet.making.lie import Place, Way, recess_depth
from cabinet.making.outline import Rect, rectangle
from cabinet.making.patch import patch_of
from cabinet.making.rack import Leftover, flaw
from cabinet.stock import Grain, steel_sheet
from tests.cabinet.making.racks import BIRCH, panel, unit_of

HOLE = flaw("hole", "face A", at=(100.0, 50.0), length=30.0, width=20.0, depth=4.2)
# The recess: 98..132 along the board, 48..72 across it.


def blank(*, turns: bool = False) -> Blank:
    shown = (Side.TOP, Side.BOTTOM)
    stock, grain = (steel_sheet(18), Grain.NONE) if turns else (BIRCH, Grain.LENGTH)
    (one,) = blanks(unit_of(panel(shows=shown, stock=stock, grain=grain)))
    return one


@pytest.mark.parametrize(
    ("way", "recess", "face"),
    [
        (Way(), Rect(98.0, 48.0, 34.0, 24.0), "face A"),
        (Way(is_reversed=True), Rect(613.0 - 132, 287.0 - 72, 34.0, 24.0), "face A"),
        (Way(is_flipped=True), Rect(98.0, 287.0 - 72, 34.0, 24.0), "face B"),
        (Way(is_flipped=True, is_reversed=True), Rect(613.0 - 132, 48.0, 34.0, 24.0), "face B"),
    ],
)
def test_the_recess_on_the_part(way: Way, recess: Rect, face: str) -> None:
    patch = patch_of(blank(), Place(0.0, 0.0, way), HOLE, "it shows", ())
    assert (patch.recess, patch.face) == (recess, face)
    assert patch.depth == 5.5
    assert patch.plug == (34.0, 24.0, 6.5)
    assert (patch.end, patch.edge) == ("left end", "front edge")


def test_the_recess_on_a_part_that_lies_across() -> None:
    # A quarter turn counter-clockwise: the part's length runs up the board, its near edge lies
    # at the right.
    told = patch_of(blank(turns=True), Place(0.0, 0.0, Way(is_turned=True)), HOLE, "it shows", ())
    assert told.recess == Rect(48.0, 287.0 - 132, 24.0, 34.0)
    assert not told.grain_along_length


@pytest.mark.parametrize(
    ("kind", "depth", "recess"),
    [("groove", 4.0, 5.0), ("groove", 4.1, 5.5), ("hole", 0.5, 3.0), ("stain", None, 3.0)],
)
def test_depth_to_half_a_millimetre(kind: str, depth: float | None, recess: float) -> None:
    assert recess_depth(flaw(kind, "face B", at=(0, 0), length=9, width=9, depth=depth)) == recess


def test_the_plug_comes_from_a_sound_rest_that_is_large_enough() -> None:
    small = Leftover(name="small", stock=BIRCH, outline=rectangle(43.9, 400.0))
    worn = Leftover(
        name="worn",
        stock=BIRCH,
        outline=rectangle(60.0, 40.0),
        flaws=(flaw("stain", "face A", at=(20, 10), length=20, width=20),),
    )
    sound = Leftover(name="sound", stock=BIRCH, outline=rectangle(44.1, 34.1))
    for rests, source in (((small, worn, sound), "sound"), ((small, worn), "")):
        assert patch_of(blank(), Place(0.0, 0.0), HOLE, "it shows", rests).source == source
