"""What carries things in a unit: its shelves, its top and its base, and where each is held.

Shelves are known by their parts and by the pins that lie under them, so it makes no difference
how they were made. Lengths in mm in the unit's frame.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from cabinet.design import Unit, around
from cabinet.errors import DesignError, UnknownNameError
from cabinet.frame import UnitBox
from cabinet.hardware import Hardware, Rod
from cabinet.joint import Butt, Crossing, Housing
from cabinet.part import Part
from cabinet.site.plan_area import Rectangle
from cabinet.site.uses import SpotLoad, UseCase

_SAME = 1e-3


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """Parts that bend together along X, and where they are held.

    Attributes:
        name: What it is called in findings.
        parts: The board first, then the strips that are glued along it.
        bearing: The box around all that lies on the pins, strips at its ends included.
        supports: X of each support.
        pins: The pins that hold it; none for top and base.
        share: Its share of what lies on the carrier.
    """

    name: str
    parts: tuple[Part, ...]
    bearing: UnitBox
    supports: tuple[float, ...]
    pins: tuple[Hardware, ...]
    share: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Carrier:
    """A shelf, the top or the base.

    Attributes:
        name: The name by which loads call it.
        held: What bends: the board, or the two rails of a frame.
        parts: All of its parts, for its own weight.
        size: Left to right and front to back, mm.
        left: X of its left end.
        front: Y of its front edge.
        level: Z of its upper face.
        panel: The panel of a frame shelf.
        ends: The frame's members between its rails.
    """

    name: str
    held: tuple[Held, ...]
    parts: tuple[Part, ...]
    size: tuple[float, float]
    left: float
    front: float
    level: float
    panel: Part | None = None
    ends: tuple[Part, ...] = ()

    @property
    def area(self) -> float:
        """Area seen from above, mm2."""
        return self.size[0] * self.size[1]

    @property
    def opening(self) -> Rectangle | None:
        """What a frame leaves clear of its panel, seen from above; None without a panel."""
        if self.panel is None:
            return None
        left, right = sorted((end.box for end in self.ends), key=lambda box: box.low.x)
        front, back = sorted((held.parts[0].box for held in self.held), key=lambda box: box.low.y)
        return Rectangle(left.high.x, right.low.x, front.high.y, back.low.y)


def _under(box: UnitBox, pin: Hardware) -> bool:
    """Whether a pin lies under a board and holds it."""
    if not isinstance(pin.body, Rod) or pin.axis.axis != 0:
        return False
    over = pin.box.overlap(box)
    return (
        abs(pin.at.z + pin.body.diameter / 2 - box.low.z) < _SAME
        and box.low.y < pin.at.y < box.high.y
        and over[0] > 0
    )


def bearing_place(board: UnitBox, pin: Hardware) -> tuple[float, float]:
    """X of the middle of a pin's bearing under a board, and its length, mm."""
    low = max(pin.box.low.x, board.low.x)
    high = min(pin.box.high.x, board.high.x)
    return (low + high) / 2, high - low


def _on_pins(
    unit: Unit, parts: tuple[Part, ...], share: float, edging: tuple[Part, ...] = ()
) -> Held:
    """Parts that bend together, and what lies on the pins with them at their ends."""
    name = parts[0].name
    bearing = around(part.box for part in (*parts, *edging))
    pins = tuple(item for item in unit.hardware if _under(bearing, item))
    places = sorted({round(bearing_place(bearing, pin)[0], 6) for pin in pins})
    if len(places) < 2:
        raise DesignError(
            f"{name}: nothing holds it at both ends, so it cannot be loaded; put pins under it",
            part=name,
            value=len(places),
            limit=2,
        )
    return Held(
        name=name, parts=parts, bearing=bearing, supports=tuple(places), pins=pins, share=share
    )


def _plain(unit: Unit) -> Iterator[Carrier]:
    by_name = unit.by_name
    for part in unit.parts:
        if part.role != "shelf":
            continue
        strips = tuple(
            by_name[joint.one]
            for joint in unit.joints
            if isinstance(joint, Butt)
            and joint.other == part.name
            and by_name[joint.one].role.endswith("lipping")
        )
        # Strips on front and back bend with the board; those at its ends only lie on the pins.
        along = tuple(strip for strip in strips if strip.placement.along.axis == 0)
        held = _on_pins(unit, (part, *along), 1.0, strips)
        yield _carrier(part.name, (held,), (part, *strips))


def _framed(unit: Unit) -> Iterator[Carrier]:
    by_name = unit.by_name
    for panel in unit.parts:
        members = [
            by_name[joint.into]
            for joint in unit.joints
            if isinstance(joint, Housing) and joint.board == panel.name
        ]
        rails = tuple(m for m in members if m.role == "frame rail")
        ends = tuple(m for m in members if m.role == "frame end")
        if len(rails) != 2 or len(ends) != 2:
            continue
        name = panel.name.removesuffix(" panel")
        held = tuple(_on_pins(unit, (rail,), 0.5) for rail in rails)
        yield _carrier(name, held, (*rails, *ends, panel), panel, ends)


def _carrier(
    name: str,
    held: tuple[Held, ...],
    parts: tuple[Part, ...],
    panel: Part | None = None,
    ends: tuple[Part, ...] = (),
) -> Carrier:
    box = around(part.box for part in parts)
    return Carrier(
        name=name,
        held=held,
        parts=parts,
        size=(box.size[0], box.size[1]),
        left=box.low.x,
        front=box.low.y,
        level=box.high.z,
        panel=panel,
        ends=ends,
    )


def _uprights(unit: Unit, flat: Part) -> tuple[float, ...]:
    """X of what holds the top or the base: its sides, and dividers that are held themselves.

    A divider passes a load on only if something holds it: the ground under a standing unit's
    base, or in a hanging one the rail that is laid into it.
    """
    found = set()
    crossed = {j.into for j in unit.joints if isinstance(j, Crossing)}
    for joint in unit.joints:
        if not isinstance(joint, Housing):
            continue
        if joint.board == flat.name:
            side = unit.by_name[joint.into].box
            low, high = max(side.low.x, flat.box.low.x), min(side.high.x, flat.box.high.x)
            found.add(round((low + high) / 2, 6))
        upright = unit.by_name[joint.board]
        if joint.into == flat.name and upright.role == "divider":
            stands = flat.role == "top" and not unit.is_hung
            if stands or upright.name in crossed:
                found.add(round((upright.box.low.x + upright.box.high.x) / 2, 6))
    return tuple(sorted(found))


def _flats(unit: Unit) -> Iterator[Carrier]:
    groups = {part.group for part in unit.parts}
    for part in unit.parts:
        if part.role not in {"top", "base"}:
            continue
        supports = _uprights(unit, part)
        if part.role == "base" and "plinth" in groups:
            # Its whole rim stands on the plinth.
            yield _carrier(part.name, (), (part,))
            continue
        if part.role == "base" and "feet" in groups:
            feet = [p.box for p in unit.parts if p.group == "feet"]
            supports = tuple(sorted({round((b.low.x + b.high.x) / 2, 6) for b in feet}))
        if len(supports) < 2:
            yield _carrier(part.name, (), (part,))
            continue
        held = Held(
            name=part.name,
            parts=(part,),
            bearing=part.box,
            supports=supports,
            pins=(),
            share=1.0,
        )
        yield _carrier(part.name, (held,), (part,))


def carriers(unit: Unit) -> tuple[Carrier, ...]:
    """Everything that a load can be put on, shelves first.

    Raises:
        DesignError: a shelf that nothing holds at both ends.
    """
    return (*_plain(unit), *_framed(unit), *_flats(unit))


def require_places(use: UseCase, known: tuple[Carrier, ...]) -> None:
    """Refuse a use whose loads have no place in the unit.

    Raises:
        UnknownNameError: a place that is none of the carriers.
        DesignError: a spot beyond the end of its shelf.
    """
    by_name = {carrier.name: carrier for carrier in known}
    for load in use.loads:
        if load.place not in by_name:
            raise UnknownNameError(
                f"{use.name}: there is no place {load.place!r} to put a load on; there are "
                f"{', '.join(sorted(by_name))}",
                part=use.name,
                value=load.place,
                limit=tuple(sorted(by_name)),
            )
        wide = by_name[load.place].size[0]
        if isinstance(load, SpotLoad) and load.from_left is not None and load.from_left > wide:
            raise DesignError(
                f"{use.name}: a load {load.from_left:g} mm from the left of {load.place}, which "
                f"is {wide:.1f} mm long",
                part=load.place,
                value=load.from_left,
                limit=wide,
            )
