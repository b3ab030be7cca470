"""Dimensions as data: complete, nothing said twice, enough to find every place again."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import fields, replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cabinet.board import At, BoardSize, Surface
from cabinet.errors import DesignError, SizeError
from cabinet.features import Groove, Hole, HoleRow, Tolerance
from cabinet.part import Board, Part
from cabinet.stock import birch_plywood
from drawings.dimension import (
    BoardDimensions,
    Dimension,
    Node,
    NodeKey,
    Repeat,
    edge_node,
    require_tree,
    tolerance_text,
    tree_faults,
)
from drawings.dimensioning import board_dimensions
from tests.drawings.sample_parts import SAMPLES, divider, doubled_top, plinth, rail, side
from tests.strategies import FEATURES, boards

PLY = birch_plywood(18, 17.6)


def texts(dimensions: BoardDimensions, axis: int) -> list[str]:
    """Printed figures on one axis."""
    return [link.text for link in dimensions.on(axis)]


def walked(dimensions: BoardDimensions) -> dict[NodeKey, float]:
    """Every node's coordinate from the datum edges and the printed links alone."""
    known = {edge_node(axis, -1, dimensions.size).key: 0.0 for axis in range(3)}
    links = [pair for link in dimensions.links for pair in _steps(link)]
    while links:
        rest = []
        for start, end, step in links:
            if start in known:
                known[end] = known[start] + step
            elif end in known:
                known[start] = known[end] - step
            else:
                rest.append((start, end, step))
        assert len(rest) < len(links), "a link hangs on nothing"
        links = rest
    return known


def _steps(link: Dimension) -> list[tuple[NodeKey, NodeKey, float]]:
    found = []
    for start, end in link.pairs:
        sign = 1 if end.coordinate > start.coordinate else -1
        found.append((start.key, end.key, sign * link.value))
    return found


def assert_sound(board: Board) -> None:
    """No link or callout too few, none too many, and every place can be found."""
    dimensions = board_dimensions(board)
    assert tree_faults(dimensions) == ()
    for index, link in enumerate(dimensions.links):
        less = dimensions.links[:index] + dimensions.links[index + 1 :]
        assert tree_faults(replace(dimensions, links=less)), f"{link.title} is not missed"
        twice = (*dimensions.links, link)
        assert tree_faults(replace(dimensions, links=twice)), f"{link.title} twice is not seen"
    for index, callout in enumerate(dimensions.callouts):
        fewer = dimensions.callouts[:index] + dimensions.callouts[index + 1 :]
        assert tree_faults(replace(dimensions, callouts=fewer)), f"{callout.title} is not missed"
        more = (*dimensions.callouts, callout)
        assert tree_faults(replace(dimensions, callouts=more)), f"{callout.title} twice not seen"
    found = walked(dimensions)
    for shape in dimensions.shapes:
        for role, node in shape.nodes:
            assert found[node.key] == pytest.approx(node.coordinate, abs=1e-5), role


@pytest.mark.parametrize("sample", SAMPLES)
def test_samples_form_trees(sample: Callable[[], Part]) -> None:
    """Samples form trees."""
    assert_sound(sample().board)


@pytest.mark.parametrize("kind", FEATURES)
@given(data=st.data())
def test_every_kind_of_feature_forms_a_tree(kind: type, data: st.DataObject) -> None:
    """Every kind of feature forms a tree."""
    size = BoardSize(613.4, 287.2, 17.6)
    feature = data.draw(FEATURES[kind](size))
    board = Board(stock=PLY, length=size.length, width=size.width, features=(feature,))
    assert_sound(board)
    assert [shape.feature for shape in board_dimensions(board).shapes] == [feature.name]


@given(boards())
def test_generated_boards_form_trees(board: Board) -> None:
    """Generated boards form trees."""
    assert_sound(board)


@given(boards())
def test_a_board_turned_end_for_end_has_the_same_figures(board: Board) -> None:
    """A board turned end for end has the same figures."""
    one, other = board_dimensions(board), board_dimensions(board.mirrored())
    for axis in range(3):
        assert sorted(texts(one, axis)) == sorted(texts(other, axis))


def test_nodes_of_a_box_are_where_the_feature_is() -> None:
    """The nodes against the box that the feature takes away, worked out elsewhere."""
    part = doubled_top()
    dimensions = board_dimensions(part.board)
    by_name = {feature.name: feature for feature in part.board.features}
    box = by_name["housing for divider"].box(part.board.size)
    nodes = dict(next(s for s in dimensions.shapes if s.feature == "housing for divider").nodes)
    assert nodes["near"].coordinate == pytest.approx(box.low[0])
    assert nodes["far"].coordinate == pytest.approx(box.high[0])
    assert nodes["start"].coordinate == pytest.approx(box.low[1])
    assert nodes["floor"].coordinate == pytest.approx(box.high[2])


def test_rows_that_share_their_places_are_told_once() -> None:
    """Rows that share their places are told once."""
    dimensions = board_dimensions(side().board)
    assert texts(dimensions, 0).count("9 × 32 (= 288)") == 1
    assert texts(dimensions, 0).count("142.3") == 1
    assert "2 × 10 × ⌀5, 12 deep" in [callout.text for callout in dimensions.callouts]


def test_equal_steps_are_written_with_their_product() -> None:
    """Source: textbooks to ISO 129-1 (technisches-zeichnen.net, "Repeating geometry").

    The number of spaces times the space, with the product in brackets: 9 spaces between ten
    holes.
    """
    row = HoleRow(
        name="row",
        surface=Surface.A,
        first=At(Surface.START, 71),
        line=At(Surface.LOW, 37),
        count=10,
        pitch=25,
        diameter=5,
        depth=11,
    )
    dimensions = board_dimensions(Board(stock=PLY, length=413, width=231, features=(row,)))
    assert "9 × 25 (= 225)" in texts(dimensions, 0)


def test_a_row_whose_end_is_taken_tells_its_pitch_in_the_callout() -> None:
    """A row whose end is taken tells its pitch in the callout."""
    row = HoleRow(
        name="row",
        surface=Surface.A,
        first=At(Surface.START, 71),
        line=At(Surface.LOW, 37),
        count=4,
        pitch=32,
        diameter=5,
        depth=11,
    )
    longer = replace(row, name="longer", line=At(Surface.LOW, 113), count=7, pitch=16)
    board = Board(stock=PLY, length=413, width=231, features=(row, longer))
    assert_sound(board)
    dimensions = board_dimensions(board)
    assert [link.text for link in dimensions.on(0) if link.repeat] == ["3 × 32 (= 96)"]
    assert any("pitch 16" in callout.text for callout in dimensions.callouts)


def test_a_place_told_from_the_far_end_hangs_on_the_overall_length() -> None:
    """A place told from the far end hangs on the overall length."""
    hole = Hole(
        name="hole",
        surface=Surface.A,
        centre=(At(Surface.END, 83), At(Surface.HIGH, 29)),
        diameter=8,
    )
    dimensions = board_dimensions(Board(stock=PLY, length=413, width=231, features=(hole,)))
    link = next(link for link in dimensions.on(0) if link.feature == "hole")
    assert (link.start.coordinate, link.end.coordinate, link.text) == (413, 330, "83")
    assert link.direction == -1


def test_both_ends_alike_share_one_figure() -> None:
    """Both ends alike share one figure."""
    widths = [link for link in board_dimensions(side().board).links if "width from" in link.title]
    assert len(widths) == 1
    assert [end.coordinate for _, end in widths[0].pairs] == pytest.approx([18.7, 585.9])


def test_a_slot_tells_its_height_once_for_all_places() -> None:
    """A slot tells its height once for all places."""
    dimensions = board_dimensions(rail().board)
    assert texts(dimensions, 2).count("6.2") == 1
    assert "4 × slot for biscuit no. 0, 4 wide, 8 deep" in [c.text for c in dimensions.callouts]


def test_rows_on_two_faces_have_their_own_callouts() -> None:
    """Rows on two faces have their own callouts."""
    found = board_dimensions(divider().board).callouts
    assert [callout.text for callout in found] == ["2 × 11 × ⌀5, 11 deep"] * 2


def test_tolerances_are_signed() -> None:
    """Tolerances are signed."""
    assert tolerance_text(None) == ""
    assert tolerance_text(Tolerance(0, 0.2)) == " +0.2 / 0"
    assert tolerance_text(Tolerance(-0.15, 0.15)) == " ±0.15"
    assert tolerance_text(Tolerance(-0.3, -0.1)) == " \N{MINUS SIGN}0.1 / \N{MINUS SIGN}0.3"


def node(coordinate: float, axis: int = 0) -> Node:
    """A node at a coordinate."""
    return Node(axis=axis, coordinate=coordinate, what="place")


def test_bad_dimensions_are_refused() -> None:
    """Bad dimensions are refused."""
    with pytest.raises(SizeError):
        Dimension(start=node(3), end=node(3), title="nothing")
    with pytest.raises(SizeError):
        Dimension(start=node(3), end=node(7, axis=1), title="askew")
    with pytest.raises(SizeError):
        Dimension(start=node(3), end=node(99), title="steps", repeat=Repeat(4, 23))
    with pytest.raises(SizeError):
        Dimension(start=node(3), end=node(7), title="pair", also=((node(9), node(14)),))
    with pytest.raises(SizeError):
        Node(axis=0, coordinate=float("nan"), what="nowhere")


def test_an_unsound_set_is_refused_by_name() -> None:
    """An unsound set is refused by name."""
    dimensions = board_dimensions(plinth().board)
    with pytest.raises(DesignError, match="plinth"):
        require_tree("plinth", replace(dimensions, links=dimensions.links[:-1]))


def test_records_are_enough_to_find_every_place() -> None:
    """Walk the plain records as a stranger would: keys, directions and values only."""
    record = board_dimensions(doubled_top().board).record()
    known = {f"{axis}0": 0.0 for axis in "xyz"}
    links = record["dimensions"]
    assert isinstance(links, list)
    for _ in range(len(links)):
        for link in links:
            start, end = link["from"]["key"], link["to"]["key"]
            if start in known:
                known[end] = known[start] + link["direction"] * link["value"]
            elif end in known:
                known[start] = known[end] - link["direction"] * link["value"]
    shapes = record["shapes"]
    assert isinstance(shapes, list)
    needed = {key for shape in shapes for key in shape["nodes"].values()}
    assert needed <= set(known)
    assert known["x1176.6"] == pytest.approx(1176.6)


def test_a_countersunk_row_tells_all_its_sizes() -> None:
    """Count, bore, depth and countersink stand in the callout and in its record."""
    row = HoleRow(
        name="screws",
        surface=Surface.A,
        first=At(Surface.START, 71),
        line=At(Surface.LOW, 37),
        count=4,
        pitch=83,
        diameter=4.5,
        depth=None,
        countersink=9.2,
    )
    board = Board(stock=PLY, length=413, width=231, features=(row,))
    assert_sound(board)
    (callout,) = board_dimensions(board).callouts
    assert callout.text == "4 × ⌀4.5 through, countersunk 90° to ⌀9.2"
    assert dict(callout.sizes)["countersink"] == 9.2


def test_every_number_of_a_feature_reaches_the_drawing() -> None:
    """A field added to a feature must be dimensioned: change each and something changes."""
    for sample in SAMPLES:
        part = sample()
        for feature in part.board.features:
            for name in numbers_of(feature):
                value = getattr(feature, name)
                for step in (0.125, -0.125, 1):
                    try:
                        other = replace(feature, **{name: value + step})
                        features = tuple(other if f is feature else f for f in part.board.features)
                        board = replace(part.board, features=features)
                    except SizeError:
                        continue
                    one, two = board_dimensions(part.board), board_dimensions(board)
                    assert one.record() != two.record(), f"{feature.name}: {name} is not told"
                    break


def numbers_of(feature: object) -> list[str]:
    """Fields of a feature that are plain numbers and do something to it."""
    is_through = isinstance(feature, Groove) and feature.start is None and feature.end is None
    return [
        field.name
        for field in fields(feature)  # type: ignore[arg-type]
        if isinstance(getattr(feature, field.name), float | int)
        and not (is_through and field.name == "end_radius")
    ]
