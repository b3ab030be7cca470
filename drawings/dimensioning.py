"""Which dimensions a board gets: each feature told once, from the edge named in its data.

The datum of a dimension is the surface in the feature's ``At``, the one that lies against the
fence or the stop when the cut is made, so nothing has to be worked out at the bench. Features
at one coordinate share its dimension; equal steps are one figure; a depth, a diameter or a
count goes to a callout. Lengths are in mm, angles in degrees.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from functools import singledispatchmethod

from cabinet.board import AXIS_NAMES, At, Surface, surface_at
from cabinet.errors import DesignError
from cabinet.features import (
    BISCUIT_BLADE_RADIUS,
    Bevel,
    BiscuitSlot,
    CutOut,
    Feature,
    FlushTrim,
    Groove,
    Hole,
    HoleRow,
    Notch,
    Perforation,
    Rebate,
    Tolerance,
)
from cabinet.part import Board
from cabinet.set_out import lie
from drawings.dimension import (
    BoardDimensions,
    Callout,
    Dimension,
    Node,
    NodeKey,
    NodeSets,
    Repeat,
    Shape,
    edge_node,
    require_tree,
)
from drawings.number import dimension_text, number

SurfaceNames = Mapping[Surface, str]

NEAR_EDGE = 45.0
"""A cross-section shows the distance from an edge that is not further away than this, mm."""


def plain_names() -> dict[Surface, str]:
    """Names of a board's surfaces where no unit gives it better ones."""
    return {surface: surface.value for surface in Surface}


@dataclass(slots=True)
class _Told:
    """A callout in the making: the features that it holds for so far."""

    text: Callable[[int], str]
    title: str
    sizes: tuple[tuple[str, float], ...]
    features: list[str] = field(default_factory=list)


def profile_of(feature: Feature) -> str:
    """Key of a feature's shape in cross-section; alike profiles share depths and one detail."""
    key: tuple[object, ...]
    match feature:
        case Groove():
            where = feature.near if _shows_near(feature) else feature.near.axis
            size = (feature.width, feature.depth, *_deviations(feature.width_tolerance))
            key = ("groove", feature.surface.name, where, *size)
        case Rebate():
            key = ("rebate", feature.edge.axis, feature.face.name, feature.width, feature.depth)
        case Bevel():
            key = ("bevel", feature.edge.axis, feature.sharp.name, feature.angle, feature.land)
        case BiscuitSlot():
            key = ("slot", feature.height, feature.biscuit.number)
        case Hole() | HoleRow():
            depth = feature.depth or 0.0
            bore = (feature.diameter, depth, feature.countersink)
            key = ("hole", feature.surface.axis, *bore)
        case _:
            key = ()
    return " ".join(_key_word(part) for part in key)


def _shows_near(groove: Groove) -> bool:
    """Whether a groove's cross-section tells how far it is from its edge."""
    return groove.near.axis == 2 or groove.near.distance <= NEAR_EDGE


def _deviations(tolerance: Tolerance | None) -> tuple[float, ...]:
    return () if tolerance is None else (tolerance.lower, tolerance.upper)


def _key_word(part: object) -> str:
    if isinstance(part, At):
        return f"{part.datum.name}{number(part.distance, 6)}"
    return number(part, 6) if isinstance(part, float | int) else str(part)


class _Plan:
    """Collects links, callouts and shapes; a link that would say a thing twice is left out."""

    def __init__(self, board: Board, names: SurfaceNames) -> None:
        self.board = board
        self.size = board.size
        self.names = names
        self._edges = {
            surface: edge_node(surface.axis, surface.sign, self.size, names[surface])
            for surface in Surface
        }
        self.links: list[Dimension] = []
        self.shapes: list[Shape] = []
        self._sets = NodeSets()
        self._shared: dict[str, int] = {}
        self._told: dict[str, _Told] = {}
        self._repeats: set[tuple[NodeKey, NodeKey, int]] = set()
        for axis in range(3):
            what = f"{AXIS_NAMES[axis]}, measured" if axis == 2 else AXIS_NAMES[axis]
            low, high = (self.datum(surface_at(axis, sign)) for sign in (-1, 1))
            datum = board.stop if axis == 0 else board.fence if axis == 1 else Surface.B
            pair = (low, high) if datum.sign < 0 else (high, low)
            self.links.append(Dimension(start=pair[0], end=pair[1], title=what))
            self._sets.join(low, high)

    @property
    def callouts(self) -> tuple[Callout, ...]:
        return tuple(
            Callout(
                text=told.text(len(told.features)),
                title=told.title,
                features=tuple(told.features),
                sizes=told.sizes,
            )
            for told in self._told.values()
        )

    # Nodes

    def datum(self, surface: Surface) -> Node:
        return self._edges[surface]

    def node(self, at: At, what: str, group: str = "") -> Node:
        coordinate = at.coordinate(self.size)
        extent = self.size.along[at.axis]
        if min(abs(coordinate), abs(coordinate - extent)) < 1e-6:
            return self.datum(surface_at(at.axis, -1 if abs(coordinate) < 1e-6 else 1))
        # Depths belong to one profile; lengths and widths are read across the whole board.
        return Node(
            axis=at.axis, coordinate=coordinate, what=what, group=group if at.axis == 2 else ""
        )

    # Links

    def link(
        self,
        start: Node,
        end: Node,
        title: str,
        feature: str,
        *,
        tolerance: Tolerance | None = None,
        share: str = "",
    ) -> None:
        """Link two nodes unless they hang together; with ``share``, under one figure."""
        if not self._sets.join(start, end):
            return
        if share and share in self._shared:
            index = self._shared[share]
            known = self.links[index]
            self.links[index] = replace(known, also=(*known.also, (start, end)))
            return
        if share:
            self._shared[share] = len(self.links)
        self.links.append(
            Dimension(start=start, end=end, title=title, feature=feature, tolerance=tolerance)
        )

    def place(self, at: At, what: str, feature: str, group: str = "") -> Node:
        """The node at a place, linked with its datum."""
        node = self.node(at, f"{what} of {feature}", group)
        title = f"{feature}, {what} from the {self.names[at.datum]}"
        self.link(self.datum(at.datum), node, title, feature)
        return node

    def repeat(self, first: Node, last: Node, steps: Repeat, feature: str) -> bool:
        """Link the first and last of equal steps; False if no figure is left to tell them."""
        key = (first.key, last.key, steps.count)
        if key in self._repeats:
            return True
        if not self._sets.join(first, last):
            return False
        self._repeats.add(key)
        title = f"{feature}, pitch along the {AXIS_NAMES[first.axis]}"
        self.links.append(
            Dimension(start=first, end=last, title=title, feature=feature, repeat=steps)
        )
        return True

    # Callouts

    def tell(
        self,
        key: str,
        feature: str,
        text: Callable[[int], str],
        title: str,
        sizes: Mapping[str, float],
    ) -> None:
        told = self._told.setdefault(key, _Told(text, title, tuple(sizes.items())))
        told.features.append(feature)

    # Features

    @singledispatchmethod
    def add(self, feature: Feature) -> None:
        raise DesignError(
            f"{feature.name}: no dimensions are known for a {type(feature).__name__}; it must be a "
            "kind of feature that this file reads",
            part=feature.name,
            value=type(feature).__name__,
            limit="a kind of feature with dimensions",
        )

    def shape(
        self,
        feature: Feature,
        kind: str,
        surfaces: tuple[Surface, ...],
        nodes: dict[str, Node],
        sizes: tuple[str, ...] = (),
        words: tuple[str, ...] = (),
    ) -> None:
        self.shapes.append(
            Shape(
                feature=feature.name,
                kind=kind,
                surfaces=surfaces,
                nodes=tuple(nodes.items()),
                sizes=sizes,
                words=words,
            )
        )

    def run_ends(self, feature: Groove | Rebate) -> dict[str, Node]:
        """Where a run stops: at its start, nearer to the axis's zero end, and at its end."""
        nodes = {}
        for role, at in (("start", feature.start), ("end", feature.end)):
            if at is not None:
                nodes[role] = self.place(at, role, feature.name)
        if len(nodes) == 2 and nodes["start"].coordinate > nodes["end"].coordinate:
            nodes = {"start": nodes["end"], "end": nodes["start"]}
        return nodes

    @add.register
    def _(self, feature: Groove) -> None:
        name, group = feature.name, profile_of(feature)
        near = self.place(feature.near, "near wall", name, group)
        far = self.node(feature.near.beyond(feature.width), f"far wall of {name}", group)
        share = "" if _shows_near(feature) else f"{group} width"
        tolerance = feature.width_tolerance
        self.link(near, far, f"{name}, width", name, tolerance=tolerance, share=share)
        floor = self.place(At(feature.surface, feature.depth), "depth", name, group)
        nodes = {"near": near, "far": far, "floor": floor, **self.run_ends(feature)}
        is_stopped = feature.start is not None or feature.end is not None
        sizes = ("end radius",) if is_stopped else ()
        if is_stopped:
            radius = feature.end_radius
            words = f"R{dimension_text(radius)}" if radius else "squared with a chisel"
            self.tell(
                f"end {number(radius, 6)}",
                name,
                lambda n: f"{'stopped end' if n == 1 else 'stopped ends'} {words}",
                f"{name}, corners of the stopped end",
                {"end radius": radius},
            )
        self.shape(feature, "groove", (feature.surface, feature.near.datum), nodes, sizes)

    @add.register
    def _(self, feature: Rebate) -> None:
        name, group = feature.name, profile_of(feature)
        edge = self.datum(feature.edge)
        inner = self.node(At(feature.edge, feature.width), f"shoulder of {name}", group)
        title = f"{name}, width from the {self.names[feature.edge]}"
        self.link(edge, inner, title, name, share=f"{group} width")
        floor = self.node(At(feature.face, feature.depth), f"floor of {name}", group)
        title = f"{name}, depth from the {self.names[feature.face]}"
        self.link(self.datum(feature.face), floor, title, name, tolerance=feature.depth_tolerance)
        nodes = {"inner": inner, "floor": floor, **self.run_ends(feature)}
        self.shape(feature, "rebate", (feature.edge, feature.face), nodes)

    @add.register
    def _(self, feature: Bevel) -> None:
        name, group = feature.name, profile_of(feature)
        nodes = {}
        if feature.land > 0:
            nodes["land"] = self.place(At(feature.sharp, feature.land), "land", name, group)
        self.tell(
            f"bevel {number(feature.angle, 6)}",
            name,
            lambda n: f"{_times(n)}{number(feature.angle, 2)}° off square",
            f"{name}, angle",
            {"angle": feature.angle},
        )
        self.shape(feature, "bevel", (feature.edge, feature.sharp), nodes, ("angle",))

    @add.register
    def _(self, feature: Hole) -> None:
        name, group = feature.name, profile_of(feature)
        nodes = {}
        for at in feature.centre:
            nodes[f"centre {AXIS_NAMES[at.axis]}"] = self.place(at, "centre", name, group)
        sizes, text = _bore(feature)
        self.tell(
            f"hole {feature.surface.name} {text}",
            name,
            lambda n: f"{_times(n)}{text}",
            f"{name}, size",
            sizes,
        )
        self.shape(feature, "hole", (feature.surface,), nodes, tuple(sizes))

    @add.register
    def _(self, feature: HoleRow) -> None:
        name, group = feature.name, profile_of(feature)
        first = self.place(feature.first, "first hole", name, group)
        line = self.place(feature.line, "line", name, group)
        nodes = {"first": first, "line": line}
        sizes, text = _bore(feature)
        sizes["count"] = float(feature.count)
        steps = feature.count - 1
        if steps:
            at = feature.first.beyond(steps * feature.pitch)
            last = self.node(at, f"last hole of {name}", group)
            if self.repeat(first, last, Repeat(steps, feature.pitch), name):
                nodes["last"] = last
            else:
                sizes["pitch"] = feature.pitch
                text += f", pitch {dimension_text(feature.pitch)}"
        # Rows share a callout only if they also share their places along the line.
        where = f"{first.key} {number(feature.pitch, 6)} {feature.first.datum.name}"
        self.tell(
            f"row {feature.surface.name} {feature.count} {text} {where}",
            name,
            lambda n: f"{_times(n)}{feature.count} × {text}",
            f"{name}, size",
            sizes,
        )
        datums = (feature.surface, feature.first.datum)
        self.shape(feature, "hole row", datums, nodes, tuple(sizes))

    @add.register
    def _(self, feature: CutOut) -> None:
        name = feature.name
        nodes = {
            f"centre {AXIS_NAMES[at.axis]}": self.place(at, "centre", name) for at in feature.centre
        }
        sizes = {
            "length": feature.length,
            "width": feature.width,
            "corner radius": feature.corner_radius,
        }
        long, short = sorted((feature.length, feature.width), reverse=True)
        size = f"{dimension_text(long)} × {dimension_text(short)}"
        if feature.is_pill and long - short < 1e-6:
            text = f"opening ⌀{dimension_text(long)}"
        elif feature.is_pill:
            text = f"pill {size}"
        else:
            text = f"opening {size}, corners R{dimension_text(feature.corner_radius)}"
        key = " ".join(number(value, 6) for value in sizes.values())
        self.tell(
            f"cut-out {key}",
            name,
            lambda n: f"{_times(n)}{text}",
            f"{name}, size",
            sizes,
        )
        self.shape(feature, "cut-out", (), nodes, tuple(sizes))

    @add.register
    def _(self, feature: Notch) -> None:
        name = feature.name
        near = self.place(feature.near, "near side", name)
        far = self.node(feature.near.beyond(feature.length), f"far side of {name}")
        self.link(near, far, f"{name}, length", name)
        inner = self.place(At(feature.edge, feature.depth), "depth", name)
        nodes = {"near": near, "far": far, "inner": inner}
        self.shape(feature, "notch", (feature.edge,), nodes)

    @add.register
    def _(self, feature: BiscuitSlot) -> None:
        name, group = feature.name, profile_of(feature)
        nodes = {
            "centre": self.place(feature.centre, "middle", name, group),
            "height": self.place(feature.height, "middle of the kerf", name, group),
        }
        biscuit = feature.biscuit
        sizes = {
            "kerf": biscuit.thickness,
            "depth": biscuit.slot_depth,
            "blade diameter": 2 * BISCUIT_BLADE_RADIUS,
        }
        kerf, depth = dimension_text(biscuit.thickness), dimension_text(biscuit.slot_depth)
        text = f"slot for biscuit no. {biscuit.number}, {kerf} wide, {depth} deep"
        self.tell(
            f"slot {biscuit.number}",
            name,
            lambda n: f"{_times(n)}{text}",
            f"{name}, size",
            sizes,
        )
        surfaces = (feature.surface,)
        self.shape(feature, "biscuit slot", surfaces, nodes, tuple(sizes))

    @add.register
    def _(self, feature: FlushTrim) -> None:
        proud = dimension_text(feature.proud)
        both = "both ends " if feature.edge.axis == 0 else "both edges "
        self.tell(
            f"trim {number(feature.proud, 6)} {feature.edge.axis}",
            feature.name,
            lambda n: f"{both if n == 2 else ''}{proud} proud, trimmed flush",
            f"{feature.name}, {self.names[feature.edge]}",
            {"proud": feature.proud},
        )
        self.shape(feature, "flush trim", (feature.edge,), {}, ("proud",))

    @add.register
    def _(self, feature: Perforation) -> None:
        pattern = f"⌀{dimension_text(feature.diameter)}, pitch {dimension_text(feature.pitch)}"
        how = lie(feature, self.size)
        ends, edges = how.along.first, how.across.first
        text = (
            f"{pattern}, {feature.pattern.value} ({feature.designation}), rows along the length, "
            f"first lines {dimension_text(ends)} from the {self.names[Surface.START]}, "
            f"{dimension_text(edges)} from the {self.names[Surface.LOW]}"
        )
        sizes = {
            "diameter": feature.diameter,
            "pitch": feature.pitch,
            "end to first line": ends,
            "edge to first line": edges,
        }
        self.tell(feature.name, feature.name, lambda _n: text, f"{feature.name}, pattern", sizes)
        words = (feature.pattern.value,)
        self.shape(feature, "perforation", (Surface.A,), {}, tuple(sizes), words)


def _times(count: int) -> str:
    return f"{count} × " if count > 1 else ""


def _bore(hole: Hole | HoleRow) -> tuple[dict[str, float], str]:
    """Sizes of a bore and how they are printed; depth 0 stands for through."""
    sizes = {"diameter": hole.diameter, "depth": hole.depth or 0.0}
    text = f"⌀{dimension_text(hole.diameter)}"
    text += " through" if hole.depth is None else f", {dimension_text(hole.depth)} deep"
    if hole.countersink:
        sizes |= {"countersink": hole.countersink, "countersink angle": 90.0}
        text += f", countersunk 90° to ⌀{dimension_text(hole.countersink)}"
    return sizes, text


# Grooves and rebates first: what the cutter's fence is set by leads, the rest hangs on it.
_ORDER = (
    FlushTrim,
    HoleRow,
    Groove,
    Rebate,
    Bevel,
    Notch,
    CutOut,
    Hole,
    BiscuitSlot,
    Perforation,
)


def board_dimensions(board: Board, names: SurfaceNames | None = None) -> BoardDimensions:
    """The dimensions of a board: complete, and nothing said twice.

    Args:
        board: The board.
        names: What the maker calls each surface; the board's own words if not given.

    Raises:
        DesignError: the dimensions form no tree, which is a fault of the project.
    """
    plan = _Plan(board, plain_names() if names is None else names)
    for feature in sorted(board.features, key=lambda f: _ORDER.index(type(f))):
        plan.add(feature)
    found = BoardDimensions(
        size=board.size,
        links=tuple(plan.links),
        callouts=plan.callouts,
        shapes=tuple(plan.shapes),
    )
    return require_tree("board", found)
