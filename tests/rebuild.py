"""A board made anew by someone who has only its sheet: no feature, no model, no coordinate.

It reads a part's dimensions, callouts and shapes as job.json has them. Places are found by
walking the dimensions from the board's ends: a value and a direction each. What a shape needs
and nobody tells stops the work, as it would at the bench. Lengths in mm, angles in degrees.

Written apart from the project: it imports neither of its packages, so that a fault in how
they place or cut something cannot hide by being made twice.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, cast

import cadquery as cq
import shapely

Told = Mapping[str, Any]
Span = tuple[float, float]

AXES = {"length": 0, "width": 1, "thickness": 2}
# Each surface of a board: the axis at right angles to it, and which end of that axis it is.
SURFACES = {
    "START": (0, -1),
    "END": (0, 1),
    "LOW": (1, -1),
    "HIGH": (1, 1),
    "B": (2, -1),
    "A": (2, 1),
}
SAME = 1e-6
# Cuts that come out of the board are made this much longer.
OUT = 7.0
# A round hole as a polygon with so many corners has its area to 2 parts in a million.
_CORNERS = 2000


class NotToldError(Exception):
    """Something that the work needs is not told, or is told in two ways."""


@dataclass(frozen=True, slots=True)
class Rebuilt:
    """What was made.

    Attributes:
        solid: The finished board, its low corner before trimming at the origin.
        open_area: Area of the holes of a perforation, which the solid does not have, mm2.
    """

    solid: cq.Shape
    open_area: float


def rebuilt(told: Told) -> Rebuilt:
    """Make a board from what is told about it.

    Args:
        told: Its ``dimensions``, ``callouts`` and ``shapes``.

    Raises:
        NotToldError: something is missing or contradicts itself.
    """
    sheet = Sheet(told)
    bodies: list[cq.Shape] = []
    area = 0.0
    for shape in told["shapes"]:
        if shape["kind"] == "perforation":
            area += perforation(Asked(sheet, shape))
        else:
            bodies += CUTS[shape["kind"]](Asked(sheet, shape))
    board = block([(0.0, extent) for extent in sheet.size])
    return Rebuilt(board.cut(*bodies) if bodies else board, area)


class Sheet:
    """What is known of a board once its dimensions have been walked."""

    def __init__(self, told: Told) -> None:
        self.callouts: Sequence[Told] = told["callouts"]
        self.places: dict[str, tuple[int, float]] = {}
        self.size = self._sizes(told["dimensions"])
        self._walk(told["dimensions"])

    def _sizes(self, dimensions: Sequence[Told]) -> tuple[float, float, float]:
        """Length, width and thickness: the dimensions of the board itself give both ends."""
        sizes: dict[int, float] = {}
        for one in dimensions:
            if one["feature"]:
                continue
            axis, ends = AXES[one["axis"]], (one["from"]["key"], one["to"]["key"])
            low, high = ends if one["direction"] > 0 else ends[::-1]
            sizes[axis] = one["value"]
            self._put(low, axis, 0.0)
            self._put(high, axis, one["value"])
        if set(sizes) != {0, 1, 2}:
            raise NotToldError(f"the board's own size is told on axes {sorted(sizes)} only")
        return sizes[0], sizes[1], sizes[2]

    def _walk(self, dimensions: Sequence[Told]) -> None:
        """From what is known to what it places, until nothing new is reached."""
        steps = [
            (pair["from"]["key"], pair["to"]["key"], pair["direction"] * one["value"])
            for one in dimensions
            for pair in (one, *one["also"])
        ]
        while True:
            known = len(self.places)
            for start, end, step in steps:
                if start in self.places:
                    axis, coordinate = self.places[start]
                    self._put(end, axis, coordinate + step)
                elif end in self.places:
                    axis, coordinate = self.places[end]
                    self._put(start, axis, coordinate - step)
            if len(self.places) == known:
                return

    def _put(self, node: str, axis: int, coordinate: float) -> None:
        before = self.places.setdefault(node, (axis, coordinate))
        if before[0] != axis or abs(before[1] - coordinate) > SAME:
            raise NotToldError(f"{node} lies at {before} and at {(axis, coordinate)}")


class Asked:
    """One shape, asking the sheet for what it needs."""

    def __init__(self, sheet: Sheet, shape: Told) -> None:
        self.sheet = sheet
        self.shape = shape

    def surface(self, index: int) -> tuple[int, int]:
        """Axis and end of one of the surfaces that the shape names."""
        return SURFACES[self.shape["surfaces"][index]]

    def has(self, role: str) -> bool:
        """Whether the shape has a place of that role."""
        return role in self.shape["nodes"]

    def place(self, role: str) -> tuple[int, float]:
        """Axis and coordinate of the place of a role."""
        node = self.shape["nodes"][role]
        if node not in self.sheet.places:
            raise NotToldError(f"{self.shape['feature']}: no dimension places its {role}")
        return self.sheet.places[node]

    def at(self, role: str) -> float:
        """Coordinate of the place of a role."""
        return self.place(role)[1]

    def size(self, name: str) -> float:
        """A size that a callout tells."""
        told = [
            callout["sizes"][name]
            for callout in self.sheet.callouts
            if self.shape["feature"] in callout["features"] and name in callout["sizes"]
        ]
        if len(told) != 1 or name not in self.shape["sizes"]:
            raise NotToldError(f"{self.shape['feature']}: {name} is told {len(told)} times")
        return cast("float", told[0])

    def names(self, size: str) -> bool:
        """Whether the shape has a size of that name."""
        return size in self.shape["sizes"]

    def level(self, axis: int, end: int) -> float:
        """Coordinate of one of the board's own surfaces."""
        return self.sheet.size[axis] if end > 0 else 0.0

    def opened(self, spans: Mapping[int, Span]) -> list[Span]:
        """Spans by axis; what reaches the board's surface goes out through it."""
        found = []
        for axis in range(3):
            low, high = sorted(spans[axis])
            extent = self.sheet.size[axis]
            found.append(
                (low - OUT if low < SAME else low, high + OUT if high > extent - SAME else high)
            )
        return found

    def run(self, axis: int) -> Span:
        """Where a run begins and ends; without a place it goes to the end of the board."""
        return (
            self.at("start") if self.has("start") else 0.0,
            self.at("end") if self.has("end") else self.sheet.size[axis],
        )


# Bodies


def unit(axis: int, sign: float = 1.0) -> cq.Vector:
    """A step of one along an axis."""
    return cq.Vector(*(sign if index == axis else 0.0 for index in range(3)))


def block(spans: Sequence[Span]) -> cq.Shape:
    """An upright block."""
    length, width, height = (high - low for low, high in spans)
    return cq.Solid.makeBox(length, width, height, cq.Vector(*(low for low, _ in spans)))


def cylinder(axis: int, span: Span, centre: Mapping[int, float], diameter: float) -> cq.Shape:
    """A round body along an axis; ``centre`` on the other two."""
    foot = cq.Vector(*(centre.get(index, span[0]) for index in range(3)))
    return cq.Solid.makeCylinder(diameter / 2, span[1] - span[0], foot, unit(axis))


def rounded(
    spans: Sequence[Span], axis: int, corners: Collection[tuple[int, int]], r: float
) -> list[cq.Shape]:
    """A block with some round corners, in pieces.

    Args:
        spans: The block.
        axis: Axis along which the round corners run.
        corners: For each round corner which end it is, 0 or 1, on the two other axes.
        r: Their radius.
    """
    u, v = (index for index in range(3) if index != axis)
    (u0, u1), (v0, v1) = spans[u], spans[v]
    strips = [((u0 + r, u1 - r), (v0, v1))]
    for end, span in ((0, (u0, u0 + r)), (1, (u1 - r, u1))):
        strips.append((span, (v0 + r * ((end, 0) in corners), v1 - r * ((end, 1) in corners))))
    found = [
        block([{axis: spans[axis], u: along, v: across}[index] for index in range(3)])
        for along, across in strips
        if along[1] - along[0] > SAME and across[1] - across[0] > SAME
    ]
    # Where a round end is a full half circle, two corners are one.
    middles = {(u1 - r if end else u0 + r, v1 - r if side else v0 + r) for end, side in corners}
    for along, across in sorted(middles):
        found.append(cylinder(axis, spans[axis], {u: along, v: across}, 2 * r))
    return found


# Shapes, one function for each kind


def groove(asked: Asked) -> list[cq.Shape]:
    """A channel from a surface to its floor, between two walls, round at its stopped ends."""
    into, end = asked.surface(0)
    across, _ = asked.surface(1)
    run = 3 - into - across
    spans = asked.opened(
        {
            into: (asked.at("floor"), asked.level(into, end)),
            across: (asked.at("near"), asked.at("far")),
            run: asked.run(run),
        }
    )
    if not asked.names("end radius"):
        return [block(spans)]
    radius = asked.size("end radius")
    stopped = [0] * asked.has("start") + [1] * asked.has("end")
    corners = [(end, side) if run < across else (side, end) for end in stopped for side in (0, 1)]
    return rounded(spans, into, corners, radius) if radius else [block(spans)]


def rebate(asked: Asked) -> list[cq.Shape]:
    """A step along an edge, from a face to its floor."""
    (across, edge), (into, face) = asked.surface(0), asked.surface(1)
    run = 3 - into - across
    return [
        block(
            asked.opened(
                {
                    across: (asked.at("inner"), asked.level(across, edge)),
                    into: (asked.at("floor"), asked.level(into, face)),
                    run: asked.run(run),
                }
            )
        )
    ]


def bevel(asked: Asked) -> list[cq.Shape]:
    """All that lies beyond a saw cut tilted about the arris, or about the foot of its land."""
    (across, edge), (_, sharp) = asked.surface(0), asked.surface(1)
    run = 1 - across
    thick = asked.sheet.size[2]
    pivot_z = asked.at("land") if asked.has("land") else asked.level(2, sharp)
    pivot = {across: asked.level(across, edge), 2: pivot_z, run: 0.0}
    reach = 4 * thick + OUT
    beyond = (pivot[across], pivot[across] + edge * reach)
    waste = block(
        [
            {
                across: (min(beyond), max(beyond)),
                run: (-OUT, asked.sheet.size[run] + OUT),
                2: (pivot_z - reach, pivot_z + reach),
            }[axis]
            for axis in range(3)
        ]
    )
    # What lies deeper under the sharp face leans into the board.
    about = unit(2, -sharp).cross(unit(across, -edge))
    start = cq.Vector(*(pivot[axis] for axis in range(3)))
    return [waste.rotate(start, start + about, asked.size("angle"))]


def _bore(asked: Asked, into: int, end: int, centre: Mapping[int, float]) -> list[cq.Shape]:
    """One hole from a surface: through if its depth is 0, countersunk if that is told."""
    depth, diameter = asked.size("depth"), asked.size("diameter")
    level = asked.level(into, end)
    bottom = level - end * depth if depth else asked.level(into, -end) - end * OUT
    top = level + end * OUT
    found = [cylinder(into, (min(bottom, top), max(bottom, top)), centre, diameter)]
    if asked.names("countersink"):
        wide = asked.size("countersink")
        half_angle = asked.size("countersink angle") / 2
        high = (wide - diameter) / 2 / math.tan(math.radians(half_angle))
        if high > SAME:
            mouth = cq.Vector(*(centre.get(index, level) for index in range(3)))
            found.append(cq.Solid.makeCone(wide / 2, diameter / 2, high, mouth, unit(into, -end)))
    return found


def hole(asked: Asked) -> list[cq.Shape]:
    """One hole."""
    into, end = asked.surface(0)
    roles = [role for role in asked.shape["nodes"] if role.startswith("centre")]
    return _bore(asked, into, end, dict(asked.place(role) for role in roles))


def hole_row(asked: Asked) -> list[cq.Shape]:
    """Equal holes; the last one or the pitch is told."""
    (into, end), (_, datum) = asked.surface(0), asked.surface(1)
    along, first = asked.place("first")
    across, line = asked.place("line")
    count = round(asked.size("count"))
    step = 0.0
    if asked.has("last"):
        step = (asked.at("last") - first) / (count - 1)
    elif count > 1:
        step = -datum * asked.size("pitch")
    return [
        body
        for index in range(count)
        for body in _bore(asked, into, end, {along: first + index * step, across: line})
    ]


def cut_out(asked: Asked) -> list[cq.Shape]:
    """An opening through the board with four round corners."""
    spans: dict[int, Span] = {2: (0.0, asked.sheet.size[2])}
    for axis, name in ((0, "length"), (1, "width")):
        middle, half = asked.at(f"centre {name}"), asked.size(name) / 2
        spans[axis] = (middle - half, middle + half)
    corners = [(u, v) for u in (0, 1) for v in (0, 1)]
    return rounded(asked.opened(spans), 2, corners, asked.size("corner radius"))


def notch(asked: Asked) -> list[cq.Shape]:
    """A square piece out of an edge or a corner."""
    into, edge = asked.surface(0)
    spans = {
        into: (asked.at("inner"), asked.level(into, edge)),
        1 - into: (asked.at("near"), asked.at("far")),
        2: (0.0, asked.sheet.size[2]),
    }
    return [block(asked.opened(spans))]


def biscuit_slot(asked: Asked) -> list[cq.Shape]:
    """What a round blade takes that is plunged into a surface."""
    into, end = asked.surface(0)
    along, middle = asked.place("centre")
    across, height = asked.place("height")
    half, diameter = asked.size("kerf") / 2, asked.size("blade diameter")
    hub = asked.level(into, end) - end * (asked.size("depth") - diameter / 2)
    return [cylinder(across, (height - half, height + half), {into: hub, along: middle}, diameter)]


def flush_trim(asked: Asked) -> list[cq.Shape]:
    """A strip along an edge."""
    into, end = asked.surface(0)
    level = asked.level(into, end)
    spans: dict[int, Span] = {axis: (0.0, asked.sheet.size[axis]) for axis in range(3)}
    spans[into] = (level, level - end * asked.size("proud"))
    return [block(asked.opened(spans))]


CUTS: dict[str, Callable[[Asked], list[cq.Shape]]] = {
    "groove": groove,
    "rebate": rebate,
    "bevel": bevel,
    "hole": hole,
    "hole row": hole_row,
    "cut-out": cut_out,
    "notch": notch,
    "biscuit slot": biscuit_slot,
    "flush trim": flush_trim,
}


def perforation(asked: Asked) -> float:
    """Area of the holes that fall on the sheet, mm2: each that is near, cut by its outline."""
    pitch, radius = asked.size("pitch"), asked.size("diameter") / 2
    first = asked.size("end to first line"), asked.size("edge to first line")
    is_staggered = asked.shape["words"] == ["staggered at 60 degrees"]
    row_pitch = pitch * math.sin(math.radians(60)) if is_staggered else pitch
    length, width, _ = asked.sheet.size
    outline = shapely.box(0.0, 0.0, length, width)
    area = 0.0
    for row in range(-2, math.ceil(width / row_pitch) + 2):
        shift = pitch / 2 if is_staggered and row % 2 else 0.0
        for hole in range(-2, math.ceil(length / pitch) + 2):
            x, y = first[0] + shift + hole * pitch, first[1] + row * row_pitch
            if radius <= x <= length - radius and radius <= y <= width - radius:
                area += math.pi * radius**2
            else:
                area += round_polygon(x, y, radius).intersection(outline).area
    return area


def round_polygon(x: float, y: float, radius: float) -> shapely.Polygon:
    """A disc as a regular polygon."""
    steps = 2 * math.pi / _CORNERS
    corners = [
        (x + radius * math.cos(k * steps), y + radius * math.sin(k * steps))
        for k in range(_CORNERS)
    ]
    return shapely.Polygon(corners)
