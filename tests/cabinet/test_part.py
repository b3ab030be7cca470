"""Parts and boards: names of edges, equality, mirror images, errors with the part's name."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given

from cabinet.board import At, Surface
from cabinet.errors import SizeError, UnknownNameError
from cabinet.features import Bevel, FlushTrim, Hole, Notch
from cabinet.frame import BoardPoint, Side, UnitPoint
from cabinet.part import DOUBLING_ALLOWANCE, Board, Part, board_part, find_part
from cabinet.stock import Grain, rubber_sheet
from tests.strategies import BIRCH, SIZE, a_groove, a_hole, a_part, a_row, boards, parts


def board(*made: object) -> Board:
    """A plain board of 613 by 287 with features."""
    return a_part(*made).board  # type: ignore[arg-type]


def test_edges_have_the_maker_s_names() -> None:
    """A left side: length up, width to the front."""
    side = a_part()
    assert side.surface_name(Surface.END) == "top end"
    assert side.surface_name(Surface.START) == "bottom end"
    assert side.surface_name(Surface.HIGH) == "front edge"
    assert side.surface_name(Surface.LOW) == "back edge"
    assert side.surface_name(Surface.A) == "right face"
    assert side.surface_name(Surface.B) == "left face"
    assert side.board.fence is Surface.HIGH
    assert side.board.stop is Surface.START


@given(part=parts())
def test_names_and_surfaces_are_inverse(part: Part) -> None:
    """Each surface looks one way, and the way leads back to the surface."""
    assert {part.surface(side) for side in Side} == set(Surface)
    assert all(part.surface(part.side(surface)) is surface for surface in Surface)


@given(part=parts())
def test_box_holds_all_corners(part: Part) -> None:
    """The blank's box is its eight corners, and the finished box is that less the trims."""
    size = part.board.size
    corners = [
        tuple(part.placement.board_to_unit(BoardPoint(x, y, z)))
        for x in (0, size.length)
        for y in (0, size.width)
        for z in (0, size.thickness)
    ]
    for axis in range(3):
        values = [corner[axis] for corner in corners]
        assert tuple(part.blank_box.low)[axis] == pytest.approx(min(values))
        assert tuple(part.blank_box.high)[axis] == pytest.approx(max(values))
    trimmed = sum(trim.proud for trim in part.board.trims)
    assert sum(part.blank_box.size) - sum(part.box.size) == pytest.approx(trimmed)
    assert sorted(part.box.size) == pytest.approx(sorted(part.board.finished_size.along))


def test_at_tells_from_the_edge_that_looks_that_way() -> None:
    """A unit coordinate becomes a distance from the named edge."""
    side = replace(a_part(), placement=replace(a_part().placement, origin=UnitPoint(5, 290, 2)))
    # Width to the front from y = 290: the front edge lies at 290 - 287 = 3.
    assert side.at(Side.FRONT, 40.0) == At(Surface.HIGH, 37.0)
    assert side.at(Side.BACK, 40.0) == At(Surface.LOW, 250.0)
    assert side.at(Side.BOTTOM, 98.0) == At(Surface.START, 96.0)
    assert side.at(Side.TOP, 98.0) == At(Surface.END, 517.0)


def test_equal_boards_are_one() -> None:
    """Equal wherever they stand; another hole makes another board."""
    one = a_part(a_hole(), name="left side")
    other = replace(a_part(a_hole(), name="right side"), role="other")
    assert one.board == other.board
    assert hash(one.board) == hash(other.board)
    assert a_part(a_hole(x=113.1)).board != one.board


def test_finished_and_rough_sizes() -> None:
    """Trims are taken off; doubled boards are cut oversize on every edge."""
    trimmed = board(FlushTrim(name="t", edge=Surface.END, proud=1.0))
    assert trimmed.finished_size.along == (612.0, 287.0, 17.6)
    assert trimmed.rough_size == (613.0, 287.0)
    double = replace(trimmed, layers=2)
    assert double.thickness == 35.2
    assert double.rough_size == (613 + 2 * DOUBLING_ALLOWANCE, 287 + 2 * DOUBLING_ALLOWANCE)


class TestMirror:
    """Two of one hand, or one of each."""

    def test_a_board_with_one_groove_is_its_own_mirror(self) -> None:
        """Turned end for end it is the same, so there is no other hand."""
        plain = board(a_groove())
        assert not plain.is_mirror_of(plain)
        assert not plain.is_mirror_of(plain.mirrored())

    def test_a_groove_and_a_hole_make_a_hand(self) -> None:
        """A left and a right side."""
        left = board(a_groove(), a_hole())
        assert left.is_mirror_of(left.mirrored())
        assert left.mirrored().is_mirror_of(left)
        assert not left.is_mirror_of(left)

    def test_a_mirror_told_from_other_edges_is_still_one(self) -> None:
        """It is the shape that counts, not the datum or the name."""
        left = board(a_groove(), a_hole())
        right = board(
            replace(a_groove(near=287 - 31 - 11.8), name="a"),
            replace(a_hole(), centre=(At(Surface.START, 113.0), At(Surface.HIGH, 71.0)), name="b"),
        )
        assert left.is_mirror_of(right)

    def test_two_left_sides_are_not_a_pair(self) -> None:
        """Turned in the plane it is the same side again."""
        left = board(a_groove(), a_hole())
        turned = board(
            a_groove(near=287 - 31 - 11.8),
            replace(a_hole(), centre=(At(Surface.END, 113.0), At(Surface.HIGH, 71.0))),
        )
        assert not left.is_mirror_of(turned)

    def test_a_stopped_groove_stops_at_the_other_end(self) -> None:
        """Open at the far end, its mirror is open at the start."""
        groove = replace(a_groove(), start=At(Surface.START, 41.0))
        stopped = board(groove)
        (mirrored,) = stopped.mirrored().features
        assert (mirrored.box(SIZE).low[0], mirrored.box(SIZE).high[0]) == (0.0, 613.0 - 41.0)
        # Turned about its length and end for end it is of either hand.
        assert stopped.is_mirror_of(stopped.mirrored())
        half = replace(groove, near=At(Surface.LOW, (287.0 - 11.8) / 2))
        assert not board(half).is_mirror_of(board(half).mirrored())

    def test_another_depth_is_no_mirror(self) -> None:
        """Nearly does not count."""
        left = board(a_groove(), a_hole())
        assert not left.is_mirror_of(board(a_groove(depth=6.1), a_hole()).mirrored())

    def test_through_holes_have_no_hand_but_countersinks_have(self) -> None:
        """Three holes through, not in line: the countersink tells the face."""
        notch = Notch(
            name="n", edge=Surface.LOW, near=At(Surface.START, 31), length=41.0, depth=17.0
        )
        plain = board(a_hole(depth=None), notch)
        assert not plain.is_mirror_of(plain.mirrored())
        sunk = board(a_hole(depth=None, countersink=11.0), notch)
        assert sunk.is_mirror_of(sunk.mirrored())

    def test_the_bevel_tells_the_face(self) -> None:
        """A bevel with a hole off the middle."""
        hole = Hole(
            name="h",
            surface=Surface.A,
            centre=(At(Surface.START, 71), At(Surface.LOW, 61)),
            diameter=7.0,
        )
        bevelled = board(Bevel(name="b", edge=Surface.HIGH, sharp=Surface.A), hole)
        assert bevelled.is_mirror_of(bevelled.mirrored())

    @given(board=boards())
    def test_a_mirror_of_a_mirror_is_the_board(self, board: Board) -> None:
        """Twice is none."""
        assert board.mirrored().mirrored() == board
        assert board.is_mirror_of(board.mirrored()) == board.mirrored().is_mirror_of(board)


def test_errors_name_the_part() -> None:
    """Also when a board refuses something by itself."""
    with pytest.raises(SizeError) as caught:
        a_part(a_groove(depth=18.4), name="divider 2")
    assert caught.value.part == "divider 2, groove for back"
    assert str(caught.value).startswith("divider 2, groove for back: depth")
    with pytest.raises(SizeError, match=r"^divider 2: two features"):
        a_part(a_row(), a_row(), name="divider 2")
    with pytest.raises(SizeError, match="name"):
        replace(a_part(), name="")


def test_a_board_by_itself_refuses_too() -> None:
    """Nothing bad can be made, with or without a name."""
    with pytest.raises(SizeError, match="board, groove for back"):
        Board(stock=BIRCH, length=613, width=41, features=(a_groove(),))
    with pytest.raises(SizeError):
        Board(stock=BIRCH, length=0.0, width=41)
    with pytest.raises(SizeError):
        Board(stock=BIRCH, length=613, width=41, layers=5)


def test_grain_follows_the_stock() -> None:
    """Rubber has none."""
    assert a_part().board.grain is Grain.LENGTH
    sheet = board_part(
        name="covering",
        role="covering",
        stock=rubber_sheet(2.5),
        box_low=UnitPoint(0, 0, 0),
        length=(Side.RIGHT, 613.0),
        width=(Side.BACK, 287.0),
        fence=Side.FRONT,
        stop=Side.LEFT,
    )
    assert sheet.board.grain is Grain.NONE


@pytest.mark.parametrize("along", Side)
@pytest.mark.parametrize("across", Side)
def test_board_part_fills_its_box_whichever_way_it_lies(along: Side, across: Side) -> None:
    """The low corner is the low corner for all 24 ways."""
    if along.axis == across.axis:
        return
    part = board_part(
        name="part",
        role="part",
        stock=BIRCH,
        box_low=UnitPoint(11, 23, 37),
        length=(along, 613.0),
        width=(across, 287.0),
        fence=across,
        stop=along,
    )
    assert tuple(part.box.low) == pytest.approx((11, 23, 37))
    sizes = {along.axis: 613.0, across.axis: 287.0}
    expected = [sizes.get(axis, 17.6) for axis in range(3)]
    assert part.box.size == pytest.approx(expected)


def test_find_part() -> None:
    """Names that exist are listed."""
    with pytest.raises(UnknownNameError, match="there are base, top"):
        find_part({"top": a_part(), "base": a_part()}, "bottom")
