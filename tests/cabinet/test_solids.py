"""Solids: volumes worked out by hand, and what does not change them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import singledispatch
from math import acos, pi, radians, sqrt, tan

import cadquery as cq
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cabinet import solids
from cabinet.board import At, BoardSize, Surface
from cabinet.errors import KernelError
from cabinet.features import (
    Bevel,
    Biscuit,
    BiscuitSlot,
    CutOut,
    Feature,
    FlushTrim,
    Groove,
    Hole,
    HoleRow,
    Notch,
    Pattern,
    Perforation,
    Rebate,
)
from cabinet.frame import BoardPoint, Placement, Side, UnitPoint
from cabinet.hardware import BiscuitPiece, Hardware, Rod, Screw
from cabinet.part import Board
from cabinet.solids import (
    centre_of_mass,
    cutter,
    hardware_solid,
    location,
    packed,
    part_solid,
    solid,
    take_over,
    volume,
)
from tests.strategies import (
    BIRCH,
    FEATURES,
    KINDS,
    a_groove,
    a_hole,
    a_part,
    a_row,
    boards,
    placements,
    points,
    sizes,
)

# Length, width and thickness of the board of these tests.
L, W, T = 613.0, 287.0, 17.6
ONE_IN_A_MILLION = 1e-6


def left(*made: Feature) -> float:
    """Volume that the kernel leaves of the board, mm3."""
    return volume(a_part(*made).board)


def near(expected: float) -> object:
    """Equal to a millionth: a tenth of a millimetre on any size is far more."""
    return pytest.approx(expected, rel=ONE_IN_A_MILLION)


def test_plain_board() -> None:
    """Length by width by thickness."""
    assert left() == near(L * W * T)


def test_grooved_board() -> None:
    """A groove of 11.8 by 6 along the length."""
    assert left(a_groove()) == near(L * W * T - 11.8 * 6.0 * L)


def test_stopped_groove_with_round_ends() -> None:
    """Each full round end leaves the corners of a square less those of its half circle."""
    groove = replace(
        a_groove(), start=At(Surface.START, 41.0), end=At(Surface.END, 57.0), end_radius=5.9
    )
    run = L - 41.0 - 57.0
    removed = (11.8 * run - (4 - pi) * 5.9**2) * 6.0
    assert left(groove) == near(L * W * T - removed)


def test_groove_stopped_at_one_end() -> None:
    """Only the stopped end is round."""
    groove = replace(a_groove(), end=At(Surface.END, 57.0), end_radius=5.9)
    removed = (11.8 * (L - 57.0) - (4 - pi) / 2 * 5.9**2) * 6.0
    assert left(groove) == near(L * W * T - removed)


def test_squared_end() -> None:
    """Chiselled square, nothing is left in the corners."""
    groove = replace(a_groove(), end=At(Surface.END, 57.0))
    assert left(groove) == near(L * W * T - 11.8 * (L - 57.0) * 6.0)


def test_rebate() -> None:
    """17.7 by 5.9 across the whole width."""
    rebate = Rebate(name="r", edge=Surface.END, face=Surface.B, width=17.7, depth=5.9)
    assert left(rebate) == near(L * W * T - 17.7 * 5.9 * W)


def test_bevel_with_land() -> None:
    """A prism: half of (thickness less land) squared at 45 degrees, along the length."""
    bevel = Bevel(name="b", edge=Surface.HIGH, sharp=Surface.A, land=3.0)
    assert left(bevel) == near(L * W * T - (T - 3.0) ** 2 / 2 * L)


def test_bevel_at_thirty_degrees() -> None:
    """Its reach is the thickness times tan 30, that is divided by the root of 3."""
    bevel = Bevel(name="b", edge=Surface.START, sharp=Surface.B, angle=30.0)
    assert left(bevel) == near(L * W * T - T * T / sqrt(3) / 2 * W)


def test_blind_hole() -> None:
    """A cylinder."""
    assert left(a_hole()) == near(L * W * T - pi * 3.5**2 * 9.5)


def test_countersunk_hole() -> None:
    """A cylinder through, and round it a frustum of a cone of 90 degrees less its core."""
    hole = a_hole(depth=None, countersink=13.0)
    high = 6.5 - 3.5
    frustum = pi * high / 3 * (6.5**2 + 6.5 * 3.5 + 3.5**2)
    removed = pi * 3.5**2 * T + frustum - pi * 3.5**2 * high
    assert left(hole) == near(L * W * T - removed)


def test_row_of_holes() -> None:
    """As many cylinders."""
    assert left(a_row()) == near(L * W * T - 5 * pi * 2.5**2 * 12.0)


def test_pill() -> None:
    """A rectangle and two half circles, through the thickness."""
    pill = CutOut(
        name="air",
        centre=(At(Surface.START, 211.0), At(Surface.HIGH, 91.0)),
        length=121.0,
        width=34.0,
        corner_radius=17.0,
    )
    removed = ((121.0 - 34.0) * 34.0 + pi * 17.0**2) * T
    assert left(pill) == near(L * W * T - removed)


def test_opening_with_round_corners() -> None:
    """A rectangle less the corners."""
    opening = CutOut(
        name="leads",
        centre=(At(Surface.END, 211.0), At(Surface.LOW, 91.0)),
        length=71.0,
        width=121.0,
        corner_radius=6.0,
    )
    assert left(opening) == near(L * W * T - (71.0 * 121.0 - (4 - pi) * 6.0**2) * T)


def test_notch() -> None:
    """A corner sawn out."""
    notch = Notch(name="n", edge=Surface.HIGH, near=At(Surface.END, 0.0), length=101.0, depth=17.7)
    assert left(notch) == near(L * W * T - 101.0 * 17.7 * T)


def test_biscuit_slot() -> None:
    """A segment of a circle of 50, 12 high, times the kerf of 4.

    Area of a segment of height h: r2 acos((r - h) / r) - (r - h) sqrt(2 r h - h2).
    """
    slot = BiscuitSlot(
        name="s",
        surface=Surface.LOW,
        centre=At(Surface.START, 111.0),
        height=At(Surface.A, 8.3),
        biscuit=Biscuit.NO_20,
    )
    r, h = 50.0, 12.0
    segment = r**2 * acos((r - h) / r) - (r - h) * sqrt(2 * r * h - h**2)
    assert left(slot) == near(L * W * T - segment * 4.0)


def test_flush_trim() -> None:
    """The finished solid is without the strip."""
    trim = FlushTrim(name="t", edge=Surface.START, proud=1.3)
    assert left(trim) == near((L - 1.3) * W * T)


def test_perforation_is_taken_off_as_a_number() -> None:
    """The solid stays plain; the volume does not."""
    field = Perforation(name="p", diameter=9, pitch=23, pattern=Pattern.SQUARE)
    part = a_part(field)
    # 613 / 2 is 13 times 23 and 7.5: a line in the middle keeps the cuts 7.5 from a line, more than
    # half a hole of 4.5. 287 / 2 is 6 times 23 and 5.5: a gap in the middle keeps them 6 from one.
    # 27 by 12 whole holes, none cut.
    assert solid(part.board).Volume() == near(L * W * T)
    assert volume(part.board) == near(L * W * T - 27 * 12 * pi * 4.5**2 * T)


def test_cuts_that_meet_are_taken_once() -> None:
    """A groove along and a housing across share a square."""
    across = Groove(
        name="housing", surface=Surface.A, near=At(Surface.START, 201.0), width=17.8, depth=9.0
    )
    removed = 11.8 * 6.0 * L + 17.8 * 9.0 * W - 11.8 * 17.8 * 6.0
    assert left(a_groove(), across) == near(L * W * T - removed)


@singledispatch
def removed_by(feature: Feature, size: BoardSize) -> float:
    """Volume that a feature takes away by itself, by closed formula, mm3."""
    raise AssertionError(f"no closed formula for a {type(feature).__name__}")


def _run_length(feature: Groove | Rebate, size: BoardSize) -> float:
    axis = feature.run_axis
    low = feature.start.coordinate(size) if feature.start else 0.0
    high = feature.end.coordinate(size) if feature.end else size.along[axis]
    return high - low


@removed_by.register
def _(feature: Groove, size: BoardSize) -> float:
    round_ends = sum(at is not None for at in (feature.start, feature.end))
    corners = round_ends * (2 - pi / 2) * feature.end_radius**2
    return (feature.width * _run_length(feature, size) - corners) * feature.depth


@removed_by.register
def _(feature: Rebate, size: BoardSize) -> float:
    return feature.width * feature.depth * _run_length(feature, size)


@removed_by.register
def _(feature: Bevel, size: BoardSize) -> float:
    run = size.length if feature.edge.axis == 1 else size.width
    return (size.thickness - feature.land) ** 2 * tan(radians(feature.angle)) / 2 * run


@removed_by.register
def _(feature: Hole, size: BoardSize) -> float:
    depth = feature.depth or size.along[feature.surface.axis]
    bore = pi * feature.diameter**2 / 4 * depth
    if not feature.countersink:
        return bore
    big, small = feature.countersink / 2, feature.diameter / 2
    return bore + pi * (big - small) / 3 * (big**2 + big * small - 2 * small**2)


@removed_by.register
def _(feature: HoleRow, size: BoardSize) -> float:
    return feature.count * removed_by(feature.holes[0], size)


@removed_by.register
def _(feature: CutOut, size: BoardSize) -> float:
    return (feature.length * feature.width - (4 - pi) * feature.corner_radius**2) * size.thickness


@removed_by.register
def _(feature: Notch, size: BoardSize) -> float:
    return feature.length * feature.depth * size.thickness


@removed_by.register
def _(feature: BiscuitSlot, size: BoardSize) -> float:
    r, h = 50.0, feature.biscuit.width / 2 + 0.5
    return 4.0 * (r**2 * acos((r - h) / r) - (r - h) * sqrt(2 * r * h - h**2))


@removed_by.register
def _(feature: FlushTrim, size: BoardSize) -> float:
    return feature.proud * size.length * size.width * size.thickness / size.along[feature.edge.axis]


@removed_by.register
def _(feature: Perforation, size: BoardSize) -> float:
    return 0.0


@pytest.mark.parametrize("kind", KINDS)
@settings(max_examples=20)
@given(data=st.data(), size=sizes())
def test_any_feature_takes_what_its_formula_says(
    kind: type, data: st.DataObject, size: BoardSize
) -> None:
    """One feature by itself, from any surface and any datum; nothing is left of the formula."""
    feature = data.draw(FEATURES[kind](size))
    body = cutter(feature, size)
    block = cq.Solid.makeBox(*size.along)
    taken = block.Volume() - block.cut(body).Volume() if body is not None else 0.0
    assert taken == pytest.approx(removed_by(feature, size), rel=1e-6, abs=1e-3)


@settings(max_examples=30)
@given(board=boards(apart=True))
def test_volume_is_the_blank_less_its_cuts(board: Board) -> None:
    """Cuts that do not meet add up."""
    cuts = sum(removed_by(feature, board.size) for feature in board.features)
    blank = board.length * board.width * board.thickness
    assert volume(board) == near(blank - cuts)


@settings(max_examples=20)
@given(board=boards())
def test_a_mirrored_board_weighs_the_same(board: Board) -> None:
    """Volume stays, and the centre of mass changes ends."""
    other = board.mirrored()
    assert volume(other) == near(volume(board))
    x, y, z = centre_of_mass(board)
    assert centre_of_mass(other) == pytest.approx((board.length - x, y, z), abs=1e-4)


@settings(max_examples=20)
@given(board=boards())
def test_the_order_of_features_does_not_matter(board: Board) -> None:
    """A different order of cuts leaves the same board."""
    turned = replace(board, features=board.features[::-1])
    assert volume(turned) == near(volume(board))


@given(placement=placements(), point=points())
def test_the_kernel_places_as_the_frames_do(placement: Placement, point: UnitPoint) -> None:
    """A vertex put by the kernel's location lies where the placement says."""
    at = BoardPoint(*point)
    vertex = cq.Vertex.makeVertex(*at).moved(location(placement))
    assert vertex.toTuple() == pytest.approx(tuple(placement.board_to_unit(at)), abs=1e-6)


@settings(max_examples=20)
@given(board=boards(), placement=placements())
def test_where_a_part_lies_does_not_change_it(board: Board, placement: Placement) -> None:
    """Volume stays, and the solid's box is the part's box."""
    part = replace(a_part(), board=board, placement=placement)
    body = part_solid(part)
    assert body.Volume() == near(solid(board).Volume())
    # Only a notch, a bevel or a rebate could make the solid shorter than its blank.
    box = body.BoundingBox()
    for low, least in zip((box.xmin, box.ymin, box.zmin), part.blank_box.low, strict=True):
        assert low >= least - 1e-3
    for high, most in zip((box.xmax, box.ymax, box.zmax), part.blank_box.high, strict=True):
        assert high <= most + 1e-3


def test_equal_boards_share_one_solid() -> None:
    """Made once, whoever asks."""
    assert solid(a_part(a_hole(), name="a").board) is solid(a_part(a_hole(), name="b").board)


@settings(max_examples=30)
@given(board=boards())
def test_a_solid_made_elsewhere_is_the_same(board: Board) -> None:
    """What another process hands over gives the same volume, faces and centre, to the bit."""
    made, centre = solid(board), centre_of_mass(board)
    content = packed(replace(a_part(), board=board))
    solids._made.cache_clear()
    take_over(board, content)
    assert solid(board) is not made
    assert solid(board).Volume() == made.Volume()
    assert centre_of_mass(board) == centre
    kinds = [sorted((f.geomType(), f.Area()) for f in one.Faces()) for one in (made, solid(board))]
    assert kinds[0] == kinds[1]
    again = solid(board)
    take_over(board, content)
    assert solid(board) is again, "what is known is not replaced"


def test_a_board_cut_in_two_is_refused_by_name() -> None:
    """Two notches that meet leave two pieces; the message names the part."""
    notches = [
        Notch(
            name=f"notch {edge.value}",
            edge=edge,
            near=At(Surface.START, 201.0),
            length=31.0,
            depth=151.0,
        )
        for edge in (Surface.LOW, Surface.HIGH)
    ]
    with pytest.raises(KernelError, match=r"^left side: .* 2 pieces") as caught:
        part_solid(a_part(*notches))
    assert (caught.value.part, caught.value.value, caught.value.limit) == ("left side", 2, 1)


def test_a_cut_that_takes_nothing_is_refused() -> None:
    """A slot in the air cannot be what was meant: here its board has been made smaller."""
    board = a_part(a_hole(x=601.0)).board
    shorter = replace(board, features=())
    shorter = replace(shorter, length=300.0)
    # Past the class's own check, as only a fault of ours could come.
    object.__setattr__(shorter, "features", board.features)
    with pytest.raises(KernelError, match="cannot leave"):
        solid(shorter)


def _at(body: Rod | Screw | BiscuitPiece, axis: Side) -> Hardware:
    return Hardware(name="h", article="a", body=body, at=UnitPoint(31, 47, 59), axis=axis)


BODIES: dict[str, tuple[Callable[[], Rod | Screw | BiscuitPiece], float]] = {
    "rod": (lambda: Rod(diameter=8.0, length=613.0), pi * 4.0**2 * 613.0),
    "screw": (
        # Core 0.7 of 5.0; the head's cone goes from 10 to 3.5 at 45 degrees.
        lambda: Screw(diameter=5.0, length=45.0, head_diameter=10.0),
        pi * 1.75**2 * 45.0 + pi * 3.25 / 3 * (5.0**2 + 5.0 * 1.75 + 1.75**2) - pi * 1.75**2 * 3.25,
    ),
}


@pytest.mark.parametrize("name", BODIES)
@pytest.mark.parametrize("axis", Side)
def test_hardware_by_hand(name: str, axis: Side) -> None:
    """Volume by formula; the solid fills its box whichever way it points."""
    make, expected = BODIES[name]
    item = _at(make(), axis)
    body = hardware_solid(item)
    assert body.Volume() == near(expected)
    box = body.BoundingBox()
    assert (box.xmin, box.ymin, box.zmin) == pytest.approx(tuple(item.box.low), abs=1e-3)
    assert (box.xmax, box.ymax, box.zmax) == pytest.approx(tuple(item.box.high), abs=1e-3)


def test_biscuit_is_a_lens() -> None:
    """Two segments whose chord is the length and whose height is half the width."""
    chord, high = 56.0, 11.5
    r = (chord**2 / 4 + high**2) / (2 * high)
    segment = r**2 * acos((r - high) / r) - (r - high) * sqrt(2 * r * high - high**2)
    item = _at(BiscuitPiece(biscuit=Biscuit.NO_20, along=Side.BACK), Side.TOP)
    body = hardware_solid(item)
    assert body.Volume() == near(2 * segment * 4.0)
    assert item.box.size == (4.0, 56.0, 23.0)


def test_a_doubled_board_is_one_solid() -> None:
    """Glue adds nothing."""
    board = Board(stock=BIRCH, length=L, width=W, layers=2)
    assert volume(board) == near(L * W * 2 * T)
