"""Every printed value measured again on the model's solid, with the kernel as the caliper.

What a caliper can be laid to: flat faces square to an axis, sharp arrises, and the middles of
openings (from the edges of each opening in a flat face). Both places of a dimension must be
found there, as far apart as it says. Lengths in mm.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

import cadquery as cq
import pytest

from cabinet.features import FlushTrim
from cabinet.part import Board, Part
from cabinet.solids import solid
from drawings.dimension import Dimension
from drawings.dimensioning import board_dimensions
from tests.drawings.sample_parts import SAMPLES
from tests.examples import example_unit

EXAMPLES = ("greenhouse_wall_unit", "pantry_cupboard", "pottery_drying_rack")
EXACT = 1e-6

Places = tuple[list[float], list[float], list[float]]


def before_trimming(board: Board) -> cq.Shape:
    """The solid that the dimensions are told on: edges still proud."""
    kept = tuple(f for f in board.features if not isinstance(f, FlushTrim))
    return solid(replace(board, features=kept))


def alone(board: Board, link: Dimension) -> cq.Shape:
    """The board with one feature only: a place that another cut takes away is still there."""
    features = tuple(f for f in board.features if f.name == link.feature)
    assert features, f"{link.title}: {link.value}"
    return before_trimming(replace(board, features=features))


def places(shape: cq.Shape) -> Places:
    """All coordinates on each axis to which something can be measured."""
    found: Places = ([], [], [])
    for face in shape.Faces():
        if face.geomType() != "PLANE":
            continue
        normal, centre = face.normalAt().toTuple(), face.Center().toTuple()
        axes = [axis for axis in range(3) if abs(abs(normal[axis]) - 1) < 1e-9]
        if not axes:
            _add_arrises(face, found)
            continue
        found[axes[0]].append(centre[axes[0]])
        for wire in face.innerWires():
            _add_middle(wire, axes[0], found)
    return found


def _add_arrises(face: cq.Face, found: Places) -> None:
    """The straight edges of a face that is askew: bevels leave sharp ones."""
    for vertex in face.Vertices():
        for axis, value in enumerate(vertex.toTuple()):
            found[axis].append(value)


def _add_middle(wire: cq.Wire, normal_axis: int, found: Places) -> None:
    """The middle of an opening, from the ends and the middles of its edges."""
    points = [
        point.toTuple()
        for edge in wire.Edges()
        for point in edge.positions([0.0, 0.25, 0.5, 0.75, 1.0])
    ]
    for axis in range(3):
        if axis != normal_axis:
            values = [point[axis] for point in points]
            found[axis].append((min(values) + max(values)) / 2)


def is_measured(link: Dimension, measured: Places) -> bool:
    """Whether both places of each pair are found, as far apart as the dimension says."""
    return all(
        any(
            abs(abs(b - a) - link.value) < EXACT
            for a in _near(measured[link.axis], start.coordinate)
            for b in _near(measured[link.axis], end.coordinate)
        )
        for start, end in link.pairs
    )


def _near(values: Sequence[float], coordinate: float) -> list[float]:
    return [value for value in values if abs(value - coordinate) < EXACT]


def check(board: Board) -> int:
    """Measure all dimensions of a board; return how many there were."""
    measured = places(before_trimming(board))
    links = board_dimensions(board).links
    for link in links:
        assert is_measured(link, measured) or is_measured(link, places(alone(board, link))), (
            f"{link.title}: {link.value}"
        )
    return len(links)


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_dimension_of_the_examples_is_measured(name: str) -> None:
    counts = [check(board) for board in {part.board for part in example_unit(name).parts}]
    assert sum(counts) > 60


@pytest.mark.parametrize("sample", SAMPLES)
def test_every_dimension_of_the_samples_is_measured(sample: Callable[[], Part]) -> None:
    assert check(sample().board) >= 3


def test_a_value_a_hair_wrong_is_not_found() -> None:
    """The caliper tells: each place of a top moved by 0.01 is no longer there."""
    board = SAMPLES[1]().board
    measured = places(before_trimming(board))
    for link in board_dimensions(board).links:
        if link.repeat is None and not link.also:
            moved = replace(link.end, coordinate=link.end.coordinate + 0.01)
            assert not is_measured(replace(link, end=moved), measured), link.title


@pytest.mark.parametrize("name", EXAMPLES)
def test_what_is_printed_is_the_value(name: str) -> None:
    """No figure of the examples is rounded: whoever works from the paper makes the model."""
    for board in {part.board for part in example_unit(name).parts}:
        for link in board_dimensions(board).links:
            assert abs(link.value * 100 - round(link.value * 100)) < 1e-4, link.title
