"""Dimensions as data, before any ink: nodes on a board's axes and the links between them.

On each axis the nodes are the board's two edges and the coordinates that its features need; a
dimension links two of them. What no length on an axis can say (a diameter, an angle, a count)
is told by a callout. The dimensions of a board are complete and say nothing twice exactly when
the links of each axis form a tree that reaches every node from the datum edge (ISO 129-1:2018:
each feature is dimensioned once) and every size that a feature needs stands in one callout.
``tree_faults`` proves it. Lengths are in mm in the board's frame, angles in degrees.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from cabinet.board import AXIS_NAMES, BoardSize, Surface
from cabinet.errors import DesignError, SizeError
from cabinet.features import Tolerance
from cabinet.quantity import finite, positive, written
from drawings.number import dimension_text, number

# Two coordinates nearer than this are one node, mm.
SAME_PLACE = 1e-6

NodeKey = tuple[int, float, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Node:
    """A place on one axis of a board that a dimension can start or end at.

    Attributes:
        axis: 0 along the length, 1 across the width, 2 through the thickness.
        coordinate: Board coordinate, mm.
        what: What lies there, in words (``near wall of groove for back``).
        group: Depths are only shared by features of one profile; its key, "" for all else.
    """

    axis: int
    coordinate: float
    what: str
    group: str = ""

    def __post_init__(self) -> None:
        finite(self.what, "coordinate", self.coordinate)

    @property
    def key(self) -> NodeKey:
        """What makes two nodes the same one: axis, coordinate to a millionth of a mm, group."""
        return self.axis, round(self.coordinate, 6) + 0.0, self.group


@dataclass(frozen=True, slots=True)
class Repeat:
    """Equal steps: ``count`` spaces of ``pitch`` mm."""

    count: int
    pitch: float

    def __post_init__(self) -> None:
        positive("repeated dimension", "count", self.count, unit="")
        positive("repeated dimension", "pitch", self.pitch)


@dataclass(frozen=True, slots=True, kw_only=True)
class Dimension:
    """One length on one axis, from the node nearer to the datum to the one that it places.

    Attributes:
        start: Node that it starts from.
        end: Node that it places.
        title: What it measures, in words.
        feature: Name of the feature it comes from, "" for the board itself.
        tolerance: Allowed deviations, None for the sheet's general tolerance.
        repeat: Equal steps in it, None for a plain length.
        also: Further pairs of nodes for which the same figure holds (both ends alike).

    Raises:
        SizeError: its nodes lie on different axes or in one place, a pair in ``also`` is not
            as far apart as the first, or the steps do not add up to the value.
    """

    start: Node
    end: Node
    title: str
    feature: str = ""
    tolerance: Tolerance | None = None
    repeat: Repeat | None = None
    also: tuple[tuple[Node, Node], ...] = ()

    def __post_init__(self) -> None:
        for start, end in self.pairs:
            if {start.axis, end.axis} != {self.axis}:
                raise SizeError(f"{self.title}: its nodes lie on different axes")
            positive(self.title, "length", abs(end.coordinate - start.coordinate))
            if abs(abs(end.coordinate - start.coordinate) - self.value) > SAME_PLACE:
                raise SizeError(
                    f"{self.title}: the same figure cannot hold for {start.what} to {end.what}",
                    value=abs(end.coordinate - start.coordinate),
                    limit=self.value,
                )
        if self.repeat is not None:
            total = self.repeat.count * self.repeat.pitch
            if abs(total - self.value) > SAME_PLACE:
                raise SizeError(
                    f"{self.title}: {self.repeat.count} steps of {self.repeat.pitch:g} mm make "
                    f"{total:g}, not {self.value:g}",
                    value=total,
                    limit=self.value,
                )

    @property
    def axis(self) -> int:
        """Board axis on which it lies."""
        return self.start.axis

    @property
    def value(self) -> float:
        """Its length, mm."""
        return abs(self.end.coordinate - self.start.coordinate)

    @property
    def direction(self) -> int:
        """+1 if it runs along the axis, -1 if against it."""
        return 1 if self.end.coordinate > self.start.coordinate else -1

    @property
    def pairs(self) -> tuple[tuple[Node, Node], ...]:
        """All pairs of nodes that it links."""
        return (self.start, self.end), *self.also

    @property
    def text(self) -> str:
        """What is printed; equal steps show their product (``9 × 32 (= 288)``)."""
        if self.repeat is not None and self.repeat.count > 1:
            steps, pitch = self.repeat.count, dimension_text(self.repeat.pitch)
            return f"{steps} × {pitch} (= {dimension_text(self.value)})"
        return f"{dimension_text(self.value)}{tolerance_text(self.tolerance)}"

    def record(self) -> dict[str, object]:
        """The dimension as plain data; nodes as (axis, coordinate in mm, what lies there)."""
        return {
            "axis": AXIS_NAMES[self.axis],
            "from": _node_record(self.start),
            "to": _node_record(self.end),
            "direction": self.direction,
            "value": round(self.value, 6),
            "text": self.text,
            "title": self.title,
            "feature": self.feature,
            "tolerance": None
            if self.tolerance is None
            else [self.tolerance.lower, self.tolerance.upper],
            "repeat": None if self.repeat is None else [self.repeat.count, self.repeat.pitch],
            "also": [
                {
                    "from": _node_record(start),
                    "to": _node_record(end),
                    "direction": 1 if end.coordinate > start.coordinate else -1,
                }
                for start, end in self.also
            ],
        }


def _node_record(node: Node) -> dict[str, object]:
    return {"key": node_name(node.key), "coordinate": node.key[1], "what": node.what}


def node_name(key: NodeKey) -> str:
    """A node's key as one word, for records: axis, coordinate, group."""
    axis, coordinate, group = key
    return f"{'xyz'[axis]}{written(coordinate)}" + (f"@{group}" if group else "")


def tolerance_text(tolerance: Tolerance | None) -> str:
    """Deviations as printed behind a figure: `` ±0.2`` or `` +0.2 / 0``; "" for none."""
    if tolerance is None:
        return ""
    if tolerance.upper == -tolerance.lower:
        return f" ±{number(tolerance.upper, 2)}"
    signed = [
        ("+" if value > 0 else "\N{MINUS SIGN}" if value < 0 else "") + number(abs(value), 2)
        for value in (tolerance.upper, tolerance.lower)
    ]
    return f" {signed[0]} / {signed[1]}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Callout:
    """What is told at the end of a leader: sizes that are no length on an axis.

    Attributes:
        text: What is printed.
        title: What it is about, in words.
        features: Names of the features it holds for; the leader goes to the first.
        sizes: Name and value of each size that it fixes, mm or degrees.
    """

    text: str
    title: str
    features: tuple[str, ...]
    sizes: tuple[tuple[str, float], ...]

    def record(self) -> dict[str, object]:
        """The callout as plain data."""
        return {
            "text": self.text,
            "title": self.title,
            "features": list(self.features),
            "sizes": dict(self.sizes),
        }


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """What the drawing shows of a feature without figures: its kind and which nodes bound it.

    Attributes:
        feature: Name of the feature.
        kind: Its class, as a word (``groove``).
        surfaces: Surfaces that it is cut into or runs along, in the order its kind needs.
        nodes: For each role (``near``, ``floor`` ...) the node that dimensions must place.
        sizes: Names of the sizes that callouts must fix.
        words: What is told by a word: a pattern, the other surface of a bevel.
    """

    feature: str
    kind: str
    surfaces: tuple[Surface, ...]
    nodes: tuple[tuple[str, Node], ...]
    sizes: tuple[str, ...] = ()
    words: tuple[str, ...] = ()

    def record(self) -> dict[str, object]:
        """The shape as plain data; nodes by name only, so coordinates must be worked out."""
        return {
            "feature": self.feature,
            "kind": self.kind,
            "surfaces": [surface.name for surface in self.surfaces],
            "nodes": {role: node_name(node.key) for role, node in self.nodes},
            "sizes": list(self.sizes),
            "words": list(self.words),
        }


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardDimensions:
    """All that is told about one board.

    Attributes:
        size: Size of the board before flush trims, mm.
        links: Dimensions on all three axes, the overall ones first.
        callouts: What leaders tell.
        shapes: What the drawing shows, one for each feature.
    """

    size: BoardSize
    links: tuple[Dimension, ...]
    callouts: tuple[Callout, ...]
    shapes: tuple[Shape, ...]

    def on(self, axis: int) -> tuple[Dimension, ...]:
        """The dimensions on one axis."""
        return tuple(link for link in self.links if link.axis == axis)

    def record(self) -> dict[str, object]:
        """Everything as plain data, enough to make the board anew."""
        return {
            "dimensions": [link.record() for link in self.links],
            "callouts": [callout.record() for callout in self.callouts],
            "shapes": [shape.record() for shape in self.shapes],
        }


class NodeSets:
    """Nodes joined by links: which hang together (union-find)."""

    def __init__(self) -> None:
        self._above: dict[NodeKey, NodeKey] = {}

    def root(self, key: NodeKey) -> NodeKey:
        """The node that stands for all those joined with this one."""
        path = []
        while self._above.get(key, key) != key:
            path.append(key)
            key = self._above[key]
        for passed in path:
            self._above[passed] = key
        return key

    def are_joined(self, one: Node, other: Node) -> bool:
        """Whether a chain of links leads from one node to the other."""
        return self.root(one.key) == self.root(other.key)

    def join(self, one: Node, other: Node) -> bool:
        """Link two nodes; False if they hung together already."""
        a, b = self.root(one.key), self.root(other.key)
        self._above[a] = b
        return a != b


def edge_node(axis: int, sign: int, size: BoardSize, what: str = "") -> Node:
    """The node of a board's own edge: coordinate 0 or the whole extent."""
    coordinate = 0.0 if sign < 0 else size.along[axis]
    return Node(axis=axis, coordinate=coordinate, what=what or f"{AXIS_NAMES[axis]} edge")


def _needed(dimensions: BoardDimensions) -> Iterator[Node]:
    for axis in range(3):
        yield edge_node(axis, 1, dimensions.size, f"far end of the {AXIS_NAMES[axis]}")
    for shape in dimensions.shapes:
        for role, node in shape.nodes:
            yield Node(
                axis=node.axis,
                coordinate=node.coordinate,
                what=f"{shape.feature}, {role}",
                group=node.group,
            )


def tree_faults(dimensions: BoardDimensions) -> tuple[str, ...]:
    """What the dimensions of a board leave open or say twice; empty if they are sound.

    Every link must join what was apart (nothing is said twice), and once all are made each
    node that a shape needs must hang on its axis's datum (nothing is left open). Likewise
    each size that a shape needs must stand in exactly one callout for that feature.
    """
    faults = []
    sets = NodeSets()
    for link in dimensions.links:
        for start, end in link.pairs:
            if not sets.join(start, end):
                faults.append(f"{link.title}: said twice, {start.what} to {end.what} is known")
    for node in _needed(dimensions):
        datum = edge_node(node.axis, -1, dimensions.size)
        if not sets.are_joined(datum, node):
            faults.append(f"{node.what}: no dimension places it ({AXIS_NAMES[node.axis]})")
    for shape in dimensions.shapes:
        told = [
            name
            for callout in dimensions.callouts
            if shape.feature in callout.features
            for name, _ in callout.sizes
        ]
        faults += [
            f"{shape.feature}: {size} is told {told.count(size)} times"
            for size in shape.sizes
            if told.count(size) != 1
        ]
    return tuple(faults)


def require_tree(owner: str, dimensions: BoardDimensions) -> BoardDimensions:
    """Return the dimensions if they are complete and say nothing twice.

    Raises:
        DesignError: they are not; this is a fault of the project, not of the design.
    """
    faults = tree_faults(dimensions)
    if faults:
        raise DesignError(f"{owner}: dimensions unsound: {'; '.join(faults)}", part=owner)
    return dimensions
