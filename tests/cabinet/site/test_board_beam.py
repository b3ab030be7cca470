"""Boards of the model as beams: the same cut, wherever the board's length begins."""

from __future__ import annotations

import pytest

from cabinet.board import At, Surface
from cabinet.features import CutOut
from cabinet.frame import Side, UnitPoint
from cabinet.part import Part, board_part
from cabinet.site.beam import Beam, LineLoad, Support, solve
from cabinet.site.board_beam import BoardBeam, fibre
from cabinet.site.service import Duration, ServiceClass
from cabinet.stock import Grain, birch_plywood, steel_sheet

BIRCH = birch_plywood(nominal=18, measured=17.6)
LENGTH, WIDTH = 913.0, 287.0


def shelf(along: Side, *, stop: Surface = Surface.START, grain: Grain | None = None) -> Part:
    """A level board 913 x 287 with a cut-out 120 from one end of its length."""
    across = Side.BACK if along is Side.RIGHT else Side.FRONT
    return board_part(
        name="shelf",
        role="shelf",
        stock=BIRCH,
        box_low=UnitPoint(51.0, 0.0, 300.0),
        length=(along, LENGTH),
        width=(across, WIDTH),
        fence=Side.FRONT,
        stop=Side.LEFT,
        grain=grain,
        features=(
            CutOut(
                name="opening",
                centre=(At(stop, 120.0), At(Surface.LOW, 140.0)),
                length=100.0,
                width=150.0,
                corner_radius=10.0,
            ),
        ),
    )


@pytest.mark.parametrize("along", [Side.RIGHT, Side.LEFT])
def test_a_cut_lies_where_it_is_in_the_unit(along: Side) -> None:
    """Told from the board's start, it lies at the left or at the right, as the board lies."""
    spans = BoardBeam(parts=(shelf(along),)).spans()
    weak = min(spans, key=lambda span: span.bending)
    low = 70.0 if along is Side.RIGHT else LENGTH - 170.0
    assert (weak.start, weak.end) == pytest.approx((low, low + 100.0))
    assert weak.bending == pytest.approx(max(s.bending for s in spans) * (WIDTH - 150) / WIDTH)


@pytest.mark.parametrize(("along", "stop"), [(Side.RIGHT, Surface.START), (Side.LEFT, Surface.END)])
def test_it_is_bent_most_where_it_is_weak(along: Side, stop: Surface) -> None:
    """Clamped at the left, a cut at the left is nearest to breaking, however the board lies."""
    board = BoardBeam(parts=(shelf(along, stop=stop),))
    beam = Beam(
        stretches=board.spans(),
        supports=(Support(0.0), Support(140.0)),
        lines=(LineLoad(0.0, LENGTH, 0.05),),
    )
    bent = solve(beam)
    stress, strength, place = board.stress(bent, ServiceClass.DRY, Duration.LONG)
    moment = 0.05 * (LENGTH - 140.0) ** 2 / 2
    assert place == pytest.approx(51.0 + 140.0)
    assert stress == pytest.approx(moment / ((WIDTH - 150) * 17.6**2 / 6))
    assert strength == pytest.approx(0.7 * 40.2 / 1.2, rel=2e-3)


def test_grain_decides_the_modulus() -> None:
    """Along the span the first modulus of the table, across it the second."""
    along, across = shelf(Side.RIGHT), shelf(Side.RIGHT, grain=Grain.WIDTH)
    assert round(fibre(along, 0).modulus.likely) == round(fibre(across, 1).modulus.likely) == 10048
    assert round(fibre(across, 0).modulus.likely) == round(fibre(along, 1).modulus.likely) == 7452
    either = shelf(Side.RIGHT, grain=Grain.NONE)
    assert round(fibre(either, 0).modulus.likely) == 7452
    steel = board_part(
        name="plate",
        role="plate",
        stock=steel_sheet(2),
        box_low=UnitPoint(0.0, 0.0, 0.0),
        length=(Side.RIGHT, 300.0),
        width=(Side.BACK, 200.0),
        fence=Side.FRONT,
        stop=Side.LEFT,
    )
    assert fibre(steel, 0).modulus.likely == 210_000


def test_parts_together_share_the_moment() -> None:
    """Two equal boards are twice as stiff and each bent half as much."""
    plain = shelf(Side.RIGHT)
    one, two = BoardBeam(parts=(plain,)), BoardBeam(parts=(plain, plain))
    stiff = [beam.spans()[0].bending for beam in (one, two)]
    assert stiff[1] == pytest.approx(2 * stiff[0])
    stresses = []
    for board in (one, two):
        beam = Beam(
            stretches=board.spans(),
            supports=(Support(0.0), Support(LENGTH)),
            lines=(LineLoad(0.0, LENGTH, 0.1),),
        )
        stresses.append(board.stress(solve(beam), ServiceClass.DRY, Duration.LONG)[0])
    assert stresses[1] == pytest.approx(stresses[0] / 2)
