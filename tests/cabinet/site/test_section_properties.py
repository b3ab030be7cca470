"""Cross-sections against areas worked out by hand, by polygon, and by the solids."""

from __future__ import annotations

import math

import pytest

from cabinet.board import At, Surface
from cabinet.errors import SizeError
from cabinet.features import Bevel, CutOut, Feature, Groove, Hole, Rebate
from cabinet.part import Board
from cabinet.site.section_properties import section_at, stretches
from cabinet.solids import volume
from cabinet.stock import birch_plywood

STOCK = birch_plywood(nominal=18, measured=17.6)


def board(*features: Feature, width: float = 287.0) -> Board:
    """A board 613 long."""
    return Board(stock=STOCK, length=613.0, width=width, features=features)


def groove(start: At | None = None, end: At | None = None) -> Groove:
    """A groove 9 wide and 6 deep in face A, 41 from the near edge."""
    return Groove(
        name="groove",
        surface=Surface.A,
        near=At(Surface.LOW, 41.0),
        width=9.0,
        depth=6.0,
        start=start,
        end=end,
    )


def test_a_plain_rectangle() -> None:
    """I = b h^3 / 12 and b h^2 / 6 both ways, any text."""
    section = section_at(board(), 0, 200.0)
    assert section.area == pytest.approx(287 * 17.6)
    assert section.second_moment(2) == pytest.approx(287 * 17.6**3 / 12)
    assert section.modulus(2) == pytest.approx(287 * 17.6**2 / 6)
    assert section.second_moment(1) == pytest.approx(17.6 * 287**3 / 12)
    across = section_at(board(), 1, 100.0)
    assert across.second_moment(2) == pytest.approx(613 * 17.6**3 / 12)


def test_an_angle_by_hand() -> None:
    """A rebate makes an L: area, centroid and I by the parallel-axis theorem, worked by hand.

    100 x 17.6 less 30 x 11 from the upper far corner: A = 1760 - 330 = 1430;
    z = (1760 x 8.8 - 330 x 12.1) / 1430 = 8.03846;
    I = 100 x 17.6^3 / 12 + 1760 x 0.76154^2 - (30 x 11^3 / 12 + 330 x 4.06154^2).
    """
    rebate = Rebate(name="rebate", edge=Surface.HIGH, face=Surface.A, width=30.0, depth=11.0)
    section = section_at(board(rebate, width=100.0), 0, 300.0)
    assert section.area == pytest.approx(1430)
    assert section.centroid[1] == pytest.approx(8.03846, abs=1e-5)
    by_hand = 45431.4667 + 1020.7101 - 3327.5 - 5443.7152
    assert section.second_moment(2) == pytest.approx(by_hand, abs=0.02)
    assert section.modulus(2) == pytest.approx(by_hand / (17.6 - 8.03846), rel=1e-5)


def test_a_bevel_is_a_wedge() -> None:
    """A trapezium's area and I, by the polygon formula (shoelace) instead of by parts."""
    bevel = Bevel(name="bevel", edge=Surface.LOW, sharp=Surface.A, land=3.0)
    section = section_at(board(bevel, width=90.0), 0, 300.0)
    corners = [(14.6, 0.0), (90.0, 0.0), (90.0, 17.6), (0.0, 17.6), (0.0, 14.6)]
    area = first = second = 0.0
    for (y0, z0), (y1, z1) in zip(corners, corners[1:] + corners[:1], strict=True):
        cross = y0 * z1 - y1 * z0
        area += cross / 2
        first += cross * (z0 + z1) / 6
        second += cross * (z0 * z0 + z0 * z1 + z1 * z1) / 12
    assert section.area == pytest.approx(area)
    assert section.second_moment(2) == pytest.approx(second - first**2 / area)
    turned = Bevel(name="bevel", edge=Surface.HIGH, sharp=Surface.B, land=3.0)
    same = section_at(board(turned, width=90.0), 0, 300.0)
    assert same.second_moments == pytest.approx(section.second_moments)
    assert same.centroid == pytest.approx((90 - section.centroid[0], 17.6 - section.centroid[1]))


@pytest.mark.parametrize(
    "features",
    [
        (groove(),),
        (groove(start=At(Surface.START, 57.0), end=At(Surface.END, 91.0)),),
        (Rebate(name="r", edge=Surface.LOW, face=Surface.B, width=13.0, depth=7.0), groove()),
        (Bevel(name="b", edge=Surface.HIGH, sharp=Surface.B, land=2.0), groove()),
    ],
    ids=["groove", "stopped groove", "rebate and groove", "bevel and groove"],
)
def test_sections_add_up_to_the_solid(features: tuple[Feature, ...]) -> None:
    """Area times length over all stretches is the volume that the kernel finds."""
    made = board(*features)
    for run in (0, 1):
        if run == 1 and any(isinstance(f, Bevel) for f in features):
            continue
        found = sum((s.end - s.start) * s.section.area for s in stretches(made, run))
        assert found == pytest.approx(volume(made), rel=1e-6)


def test_stretches_change_where_the_cuts_do() -> None:
    """A stopped groove makes three stretches, the middle one weaker."""
    made = board(groove(start=At(Surface.START, 57.0), end=At(Surface.END, 91.0)))
    found = stretches(made, 0)
    assert [(s.start, s.end) for s in found] == [(0.0, 57.0), (57.0, 522.0), (522.0, 613.0)]
    stiff = [s.section.second_moment(2) for s in found]
    assert stiff[1] < stiff[0] == stiff[2]


def test_holes_and_cut_outs_are_never_taken_too_small() -> None:
    """Boxes around round things err on the safe side, by no more than the corners."""
    hole = Hole(
        name="hole", surface=Surface.A, centre=(At(Surface.START, 90.0), At(Surface.LOW, 80.0)),
        diameter=31.0,
    )  # fmt: skip
    cut = CutOut(
        name="pill", centre=(At(Surface.START, 400.0), At(Surface.LOW, 140.0)), length=120.0,
        width=30.0, corner_radius=15.0,
    )  # fmt: skip
    made = board(hole, cut)
    found = sum((s.end - s.start) * s.section.area for s in stretches(made, 0))
    corners = ((4 - math.pi) * 15.0**2 + (4 - math.pi) * 15.5**2) * 17.6
    assert found == pytest.approx(volume(made) - corners, rel=1e-6)


def test_a_place_off_the_board_is_refused() -> None:
    """It lies beyond its end."""
    with pytest.raises(SizeError, match="place of the section"):
        section_at(board(), 0, 613.5)
