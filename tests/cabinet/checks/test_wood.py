"""Wood left between cuts and to the surfaces: 3 mm at least."""

from __future__ import annotations

from dataclasses import replace

import pytest

from cabinet.board import At, Surface
from cabinet.checks.wood import webs
from cabinet.features import (
    Biscuit,
    BiscuitSlot,
    CutOut,
    Feature,
    FlushTrim,
    Groove,
    Hole,
    Notch,
    Pattern,
    Perforation,
    Rebate,
)
from cabinet.findings import Finding
from tests.cabinet.checks.planted import one_board
from tests.strategies import a_groove, a_hole, a_row


def found_in(*features: Feature) -> list[Finding]:
    """Findings of a board of 613 by 287 by 17.6."""
    return list(webs(one_board(*features)))


def slot(*, height: float = 8.0, biscuit: Biscuit = Biscuit.NO_20) -> BiscuitSlot:
    """A slot in the near edge."""
    return BiscuitSlot(
        name="slot",
        surface=Surface.LOW,
        centre=At(Surface.START, 211.0),
        height=At(Surface.A, height),
        biscuit=biscuit,
    )


def opening(*, x: float) -> CutOut:
    """An opening of 91 by 61."""
    return CutOut(
        name="air",
        centre=(At(Surface.START, x), At(Surface.LOW, 151.0)),
        length=91.0,
        width=61.0,
        corner_radius=6.0,
    )


def hole_at(x: float, y: float, *, diameter: float = 7.0) -> Hole:
    """A hole through, named by its place."""
    return Hole(
        name=f"hole {x:g} {y:g}",
        surface=Surface.A,
        centre=(At(Surface.START, x), At(Surface.LOW, y)),
        diameter=diameter,
    )


# What leaves just enough, and what leaves a tenth less; each pair differs in one number.
PAIRS: dict[str, tuple[tuple[Feature, ...], tuple[Feature, ...], float]] = {
    "a groove's floor": ((a_groove(depth=14.6),), (a_groove(depth=14.7),), 2.9),
    "a blind hole's floor": ((a_hole(depth=14.6),), (a_hole(depth=14.7),), 2.9),
    "a groove beside the edge": ((a_groove(near=3.0),), (a_groove(near=2.9),), 2.9),
    "a hole beside the end": ((a_hole(x=6.5),), (a_hole(x=6.4),), 2.9),
    "a hole that touches the end": ((a_hole(x=6.5),), (a_hole(x=3.5),), 0.0),
    "an opening beside the end": ((opening(x=48.5),), (opening(x=48.4),), 2.9),
    "an opening that touches the end": ((opening(x=48.5),), (opening(x=45.5),), 0.0),
    "a slot beside the face": ((slot(height=5.0),), (slot(height=4.9),), 2.9),
    "two grooves": (
        (a_groove(near=31.0), replace(a_groove(near=31.0 + 11.8 + 3.0), name="other")),
        (a_groove(near=31.0), replace(a_groove(near=31.0 + 11.8 + 2.9), name="other")),
        2.9,
    ),
    "two grooves back to back": (
        # 17.6 - 7.3 - 7.3 = 3.0.
        (a_groove(depth=7.3), replace(a_groove(depth=7.3), name="other", surface=Surface.B)),
        (a_groove(depth=7.3), replace(a_groove(depth=7.4), name="other", surface=Surface.B)),
        2.9,
    ),
    "two grooves that cut the board through": (
        (a_groove(depth=7.3), replace(a_groove(depth=7.3), name="other", surface=Surface.B)),
        (a_groove(depth=9.0), replace(a_groove(depth=9.0), name="other", surface=Surface.B)),
        0.0,
    ),
    "a groove through a rebate's tongue": (
        (Rebate(name="r", edge=Surface.LOW, face=Surface.B, width=41, depth=7.3), a_groove()),
        (Rebate(name="r", edge=Surface.LOW, face=Surface.B, width=41, depth=12), a_groove()),
        0.0,
    ),
    "a groove beside a proud edge": (
        (FlushTrim(name="t", edge=Surface.LOW, proud=0.8), a_groove(near=3.8)),
        (FlushTrim(name="t", edge=Surface.LOW, proud=0.8), a_groove(near=3.7)),
        2.9,
    ),
    "a hole beside a proud end": (
        (FlushTrim(name="t", edge=Surface.START, proud=1.3), a_hole(x=7.8)),
        (FlushTrim(name="t", edge=Surface.START, proud=1.3), a_hole(x=7.7)),
        2.9,
    ),
    "two holes, round to round": (
        # 6 by 8 is 10 from centre to centre: 10 - 7 = 3.
        (hole_at(211.0, 91.0), hole_at(217.0, 99.0)),
        (hole_at(211.0, 91.0), hole_at(217.0, 98.9)),
        10.0 - 7.0 - 0.08,
    ),
    "a hole beside a groove": (
        (a_groove(), hole_at(211.0, 31.0 + 11.8 + 6.5)),
        (a_groove(), hole_at(211.0, 31.0 + 11.8 + 6.4)),
        2.9,
    ),
    "holes of one row": ((a_row(pitch=8.0),), (a_row(pitch=7.9),), 2.9),
    "a tongue": (
        (Rebate(name="r", edge=Surface.LOW, face=Surface.A, width=17, depth=14.6),),
        (Rebate(name="r", edge=Surface.LOW, face=Surface.A, width=17, depth=14.7),),
        2.9,
    ),
    "a horn beside a notch": (
        (Notch(name="n", edge=Surface.LOW, near=At(Surface.END, 3.0), length=41, depth=18),),
        (Notch(name="n", edge=Surface.LOW, near=At(Surface.END, 2.9), length=41, depth=18),),
        2.9,
    ),
}


@pytest.mark.parametrize("name", PAIRS)
def test_just_inside_and_just_outside(name: str) -> None:
    """Three millimetres are enough, a tenth less is not."""
    good, bad, left = PAIRS[name]
    assert found_in(*good) == []
    found = found_in(*bad)
    assert found
    for finding in found:
        assert finding.rule == "thin-web"
        assert finding.parts == ("left side",)
        assert finding.found == pytest.approx(left, abs=0.011)
        assert finding.limit == 3.0
        assert "left side: " in finding.sentence


def test_holes_that_run_into_a_groove() -> None:
    """Nothing is left, and it is said so."""
    (finding,) = found_in(a_groove(), hole_at(211.0, 36.0))
    assert "run into each other" in finding.sentence
    assert finding.found == pytest.approx(0.0, abs=1e-6)


def test_runs_may_cross() -> None:
    """A groove along and a housing across, a groove into a rebate."""
    across = Groove(
        name="housing", surface=Surface.A, near=At(Surface.START, 201.0), width=17.8, depth=6.0
    )
    rebate = Rebate(name="rebate", edge=Surface.END, face=Surface.A, width=17.7, depth=6.0)
    assert found_in(a_groove(), across, rebate) == []


def test_the_box_of_round_things_is_not_the_last_word() -> None:
    """Two holes whose boxes are nearer than 3 but whose rims are not."""
    assert found_in(hole_at(211.0, 91.0, diameter=21.0), hole_at(229.0, 109.0, diameter=21.0)) == []


def test_trims_and_perforations_have_no_web() -> None:
    """A trimmed strip goes away, and a perforated field is data."""
    field = Perforation(name="f", diameter=5, pitch=8, pattern=Pattern.SQUARE)
    trim = FlushTrim(name="trim", edge=Surface.END, proud=1.0)
    assert found_in(field) == []
    assert found_in(trim, a_groove()) == []
