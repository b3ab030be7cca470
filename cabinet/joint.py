"""Joints: what ties two parts, with the matching features that it puts on both.

A joint reads where its parts lie, works out the features of both from one nominal size and one
clearance, and returns them; so two boards cannot disagree. It also says what the solids must
then prove: that two parts touch, or that one lies in the other with a stated gap. Nothing here
edits a part: the design collects the features when it is resolved. Lengths in mm.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Protocol

from cabinet.board import At, Surface
from cabinet.errors import DesignError
from cabinet.features import (
    Biscuit,
    BiscuitSlot,
    CutOut,
    Feature,
    Groove,
    Hole,
    HoleRow,
    Notch,
    Rebate,
    Tolerance,
)
from cabinet.frame import Side, UnitBox, UnitPoint, side_along
from cabinet.hardware import BiscuitPiece, Hardware, Rod, Screw
from cabinet.part import Part
from cabinet.quantity import positive, tenths, whole, within

# Two coordinates nearer than this are the same place, mm.
SAME = 1e-4

Parts = Mapping[str, Part]
Features = tuple[tuple[str, Feature], ...]

# A screw holds with at least this much of its thread (common practice: twice its diameter).
LEAST_THREAD = 10.0
# Wood between the heads of two screws, at least (common practice, no source).
LEAST_BETWEEN = 3.0

# A groove is opened to the board that goes in: never tighter, a little wider at most. The
# board's own thickness varies within one sheet by more than a cutter does, so plus only.
GLUED_FIT = Tolerance(0.0, 0.2)
SLIDING_FIT = Tolerance(0.0, 0.3)
TONGUE_FIT = Tolerance(-0.2, 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Touch:
    """Two bodies that are declared to touch."""

    one: str
    other: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Gap:
    """A stated clearance: moved ``gap`` towards ``side``, ``inner`` just meets ``outer``."""

    inner: str
    outer: str
    side: Side
    gap: float


Proof = Touch | Gap


class Joint(Protocol):
    """What the design asks of every joint."""

    @property
    def parts(self) -> tuple[str, ...]:
        """Names of the parts that it ties."""

    @property
    def title(self) -> str:
        """What kind of joint it is, in the words of the trade."""

    @property
    def is_glued(self) -> bool:
        """Whether glue goes in."""

    def features(self, parts: Parts) -> Features:
        """The matching features, each with the name of its part."""

    def hardware(self, parts: Parts) -> tuple[Hardware, ...]:
        """What is bought for it, in place."""

    def proofs(self, parts: Parts) -> tuple[Proof, ...]:
        """What the solids must prove."""


def _size(part: Part, axis: int) -> tuple[float, float]:
    box = part.blank_box
    return tuple(box.low)[axis], tuple(box.high)[axis]


def _proud(part: Part, side: Side) -> float:
    surface = part.surface(side)
    return sum(trim.proud for trim in part.board.trims if trim.edge is surface)


def datum_side(part: Part, axis: int) -> Side:
    """The side that a part's datum on a unit axis looks to: its stop, its fence or face B."""
    board = part.board
    surface = {0: board.stop, 1: board.fence, 2: Surface.B}[
        part.placement.board_axis(side_along(axis, 1))[0]
    ]
    return part.side(surface)


def _near_place(part: Part, datum: Side, low: float, high: float) -> At:
    """The nearer of two coordinates, told from the datum's edge."""
    one, other = part.at(datum, low), part.at(datum, high)
    return one if one.distance <= other.distance else other


def _entry(board: Part, into: Part) -> Side:
    """The side of ``into`` by which ``board`` stands out of it."""
    reach = {
        side: (board.blank_box.face(side) - into.blank_box.face(side)) * side.sign for side in Side
    }
    return max(reach, key=lambda side: reach[side])


def _overlap(board: Part, into: Part, what: str) -> UnitBox:
    low = [max(a, b) for a, b in zip(board.box.low, into.blank_box.low, strict=True)]
    high = [min(a, b) for a, b in zip(board.box.high, into.blank_box.high, strict=True)]
    if any(b - a <= SAME for a, b in zip(low, high, strict=True)):
        gaps = ", ".join(f"{b - a:.1f}" for a, b in zip(low, high, strict=True))
        raise DesignError(
            f"{board.name} does not reach into {into.name}: they overlap by {gaps} mm along "
            f"X, Y, Z, so there is no {what} to cut",
            part=board.name,
            value=gaps,
            limit="an overlap on every axis",
        )
    return UnitBox(low=UnitPoint(*low), high=UnitPoint(*high))


@dataclass(frozen=True, slots=True, kw_only=True)
class Housing:
    """A board, panel or end let into a groove, or into a rebate at an edge.

    The groove is what the board occupies of the other one, opened by the play.

    Attributes:
        board: Name of the part that goes in.
        into: Name of the part that is grooved.
        play: Opened in all across the board's thickness, half on each side.
        deep: Room left at the bottom of the groove.
        endplay: Room left at a stopped end of the groove.
        is_glued: Whether glue goes in.
        datum: Side from which the groove is told; None for the part's own datum.
        runs_out: Let the groove run out at both ends even if the board stops short, because
            another cut has already opened the place.
        until: Side and unit coordinate at which the groove stops although the board's box goes
            on, because the board is notched there; None for where the board ends.
    """

    board: str
    into: str
    play: float = 0.2
    deep: float = 0.0
    endplay: float = 0.0
    is_glued: bool = True
    datum: Side | None = None
    runs_out: bool = False
    until: tuple[Side, float] | None = None

    def __post_init__(self) -> None:
        owner = f"{self.board} in {self.into}"
        within(owner, "play", self.play, 0.0, 5.0)
        within(owner, "room at the bottom", self.deep, 0.0, 20.0)
        within(owner, "room at the end", self.endplay, 0.0, 20.0)

    @property
    def parts(self) -> tuple[str, ...]:
        """The board and the one that it goes into."""
        return self.board, self.into

    @property
    def title(self) -> str:
        """Kind of joint."""
        return "housing" if self.is_glued else "groove, dry"

    def _axes(self, parts: Parts) -> tuple[Side, int, int]:
        """The entry side, the axis across the board's thickness, the axis along the run."""
        board, into = parts[self.board], parts[self.into]
        entry = _entry(board, into)
        across = board.placement.up.axis
        if across == entry.axis:
            raise DesignError(
                f"{self.board} lies flat on {self.into}; a groove takes an edge or an end",
                part=self.board,
                value=entry.value,
                limit="edge or end first",
            )
        return entry, across, 3 - entry.axis - across

    def _edge_reached(self, parts: Parts, across: int, over: UnitBox) -> Side | None:
        """The side, across the thickness, at which the board lies flush with the other's edge."""
        into = parts[self.into]
        for side in (side_along(across, 1), side_along(across, -1)):
            left = (into.blank_box.face(side) - over.face(side)) * side.sign
            if left <= _proud(into, side) + SAME:
                return side
        return None

    def _run(self, parts: Parts, run: int, over: UnitBox) -> tuple[At | None, At | None]:
        into = parts[self.into]
        if self.runs_out:
            return None, None
        datum = datum_side(into, run)
        ends: list[At | None] = []
        for side in (side_along(run, -1), side_along(run, 1)):
            stop = over.face(side)
            if self.until is not None and self.until[0] is side:
                stop = self.until[1]
            left = (into.blank_box.face(side) - stop) * side.sign
            if left <= _proud(into, side) + max(self.endplay, SAME):
                ends.append(None)
            else:
                ends.append(into.at(datum, stop + side.sign * self.endplay))
        return ends[0], ends[1]

    def features(self, parts: Parts) -> Features:
        """A groove, or a rebate where the board lies flush with an edge."""
        board, into = parts[self.board], parts[self.into]
        entry, across, run = self._axes(parts)
        over = _overlap(board, into, self.title)
        depth = round(over.size[entry.axis] + self.deep, 6)
        low_end, high_end = self._run(parts, run, over)
        half = self.play / 2
        low = over.face(side_along(across, -1)) - half
        high = over.face(side_along(across, 1)) + half
        flush = self._edge_reached(parts, across, over)
        axis_sign = into.placement.board_axis(side_along(run, 1))[1]
        start, end = (low_end, high_end) if axis_sign > 0 else (high_end, low_end)
        if flush is not None:
            inner = low if flush.sign > 0 else high
            width = round(abs(into.blank_box.face(flush) - inner), 6)
            rebate = Rebate(
                name=f"rebate for {board.role}",
                edge=into.surface(flush),
                face=into.surface(entry),
                width=width,
                depth=depth,
                start=start,
                end=end,
                takes=board.role,
            )
            return ((into.name, rebate),)
        datum = self.datum if self.datum is not None else datum_side(into, across)
        groove = Groove(
            name=f"{'housing' if self.is_glued else 'groove'} for {board.role}",
            surface=into.surface(entry),
            near=_near_place(into, datum, low, high),
            width=round(high - low, 6),
            depth=depth,
            start=start,
            end=end,
            width_tolerance=GLUED_FIT if self.is_glued else SLIDING_FIT,
            takes=board.role,
        )
        return ((into.name, groove),)

    def hardware(self, parts: Parts) -> tuple[Hardware, ...]:
        """None is bought."""
        return ()

    def proofs(self, parts: Parts) -> tuple[Proof, ...]:
        """Half the play on each side, and the room at the bottom or contact there."""
        entry, across, _ = self._axes(parts)
        over = _overlap(parts[self.board], parts[self.into], self.title)
        flush = self._edge_reached(parts, across, over)
        sides = [s for s in (side_along(across, -1), side_along(across, 1)) if s is not flush]
        found: list[Proof] = [
            Gap(inner=self.board, outer=self.into, side=side, gap=self.play / 2) for side in sides
        ]
        found.append(Gap(inner=self.board, outer=self.into, side=entry.opposite, gap=self.deep))
        return tuple(found)


@dataclass(frozen=True, slots=True, kw_only=True)
class Track:
    """A sliding door's tongue in its groove, above or below.

    Attributes:
        door: Name of the door.
        board: Name of the top or base.
        side: TOP for the groove in the top, BOTTOM for the one in the base.
        tongue: Thickness of the tongue.
        tongue_length: How far the rebate reaches from the door's edge.
        depth: Depth of the groove from the board's inner face.
        play: Groove wider than the tongue by this in all.
        bar: Diameter of the round bar on the groove's floor, 0 for none.
        track: Number of the track, 1 at the front; doors in one track share groove and bar.
        brings_bar: Whether this door's joint counts the bar that its track has.
        bar_short: The bar ends this far from the board's ends, so that it can be laid in when
            other boards already stand there.
    """

    door: str
    board: str
    side: Side
    tongue: float
    tongue_length: float
    depth: float
    play: float
    bar: float = 0.0
    track: int = 1
    brings_bar: bool = True
    bar_short: float = 0.0

    def __post_init__(self) -> None:
        owner = f"{self.door} in {self.board}"
        positive(owner, "tongue thickness", self.tongue)
        positive(owner, "tongue length", self.tongue_length)
        positive(owner, "groove depth", self.depth)
        within(owner, "play", self.play, 0.2, 5.0)
        within(owner, "bar", self.bar, 0.0, self.depth, why="it lies in the groove")
        within(owner, "bar short of the board's end", self.bar_short, 0.0, 100.0)

    @property
    def parts(self) -> tuple[str, ...]:
        """The door and the board that guides it."""
        return self.door, self.board

    @property
    def title(self) -> str:
        """Kind of joint."""
        return "sliding track"

    @property
    def is_glued(self) -> bool:
        """A door runs dry."""
        return False

    def _tongue_span(self, parts: Parts) -> tuple[float, float]:
        """Y of the tongue's front and back: it lies at the back of the door."""
        back = parts[self.door].box.face(Side.BACK)
        return back - self.tongue, back

    @property
    def _runner(self) -> str:
        return f"runner, track {self.track}"

    @property
    def _label(self) -> str:
        return "top" if self.side is Side.TOP else "bottom"

    def features(self, parts: Parts) -> Features:
        """The door's rebate and the board's groove."""
        door, board = parts[self.door], parts[self.board]
        front, _ = self._tongue_span(parts)
        rebate = Rebate(
            name=f"{self._label} tongue",
            edge=door.surface(self.side),
            face=door.surface(Side.FRONT),
            width=round(self.tongue_length, 6),
            depth=round(door.board.thickness - self.tongue, 6),
            depth_tolerance=Tolerance(0.0, 0.2),
            takes="",
        )
        groove = Groove(
            name=f"groove for {door.role}",
            surface=board.surface(self.side.opposite),
            near=board.at(Side.FRONT, front - self.play / 2),
            width=round(self.tongue + self.play, 6),
            depth=self.depth,
            width_tolerance=SLIDING_FIT,
            takes=f"tongue of {door.role}",
        )
        return ((door.name, rebate), (board.name, groove))

    def hardware(self, parts: Parts) -> tuple[Hardware, ...]:
        """The round bar on the groove's floor."""
        if not self.bar or not self.brings_bar:
            return ()
        board = parts[self.board]
        front, back = self._tongue_span(parts)
        floor = board.box.face(self.side.opposite) + self.side.sign * self.depth
        centre = floor - self.side.sign * self.bar / 2
        left = board.box.face(Side.LEFT) + self.bar_short
        length = board.box.face(Side.RIGHT) - self.bar_short - left
        return (
            Hardware(
                name=self._runner,
                article=f"round steel bar {self.bar:g}, {length:.1f} long",
                body=Rod(diameter=self.bar, length=length),
                at=UnitPoint(left, (front + back) / 2, centre),
                axis=Side.RIGHT,
                inside=(self.board,),
            ),
        )

    def proofs(self, parts: Parts) -> tuple[Proof, ...]:
        """Half the play in front and behind; the foot stands on its bar."""
        gaps: list[Proof] = [
            Gap(inner=self.door, outer=self.board, side=side, gap=self.play / 2)
            for side in (Side.FRONT, Side.BACK)
        ]
        if self.bar:
            gaps.append(Touch(one=self.door, other=self._runner))
        return tuple(gaps)


def _contact(one: Part, other: Part) -> tuple[Side, UnitBox]:
    """The side of ``one`` that touches ``other``, and the touching rectangle made 1 mm thick."""
    spans = one.box.overlap(other.box)
    axis = min(range(3), key=lambda a: abs(spans[a]))
    if abs(spans[axis]) > SAME or any(spans[a] <= SAME for a in range(3) if a != axis):
        told = ", ".join(f"{span:.2f}" for span in spans)
        raise DesignError(
            f"{one.name} and {other.name} do not meet face to face (overlaps {told} mm along "
            "X, Y, Z); a glued or screwed joint needs two faces that touch",
            part=one.name,
            value=told,
            limit=0.0,
        )
    low = [max(a, b) for a, b in zip(one.box.low, other.box.low, strict=True)]
    high = [min(a, b) for a, b in zip(one.box.high, other.box.high, strict=True)]
    is_high = abs(tuple(one.box.high)[axis] - low[axis]) <= SAME
    low[axis], high[axis] = low[axis] - 0.5, low[axis] + 0.5
    return side_along(axis, 1 if is_high else -1), UnitBox(
        low=UnitPoint(*low), high=UnitPoint(*high)
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Butt:
    """Two faces that meet, glued or merely bearing on each other."""

    one: str
    other: str
    is_glued: bool = True

    @property
    def parts(self) -> tuple[str, ...]:
        """The two parts."""
        return self.one, self.other

    @property
    def title(self) -> str:
        """Kind of joint."""
        return "glued face" if self.is_glued else "bearing"

    def features(self, parts: Parts) -> Features:
        """Nothing is cut."""
        return ()

    def hardware(self, parts: Parts) -> tuple[Hardware, ...]:
        """None is bought."""
        return ()

    def proofs(self, parts: Parts) -> tuple[Proof, ...]:
        """They touch."""
        return (Touch(one=self.one, other=self.other),)


@dataclass(frozen=True, slots=True, kw_only=True)
class Crossing:
    """A board laid into a notch of another, through its whole thickness.

    Attributes:
        board: Name of the part that is laid in.
        into: Name of the part that is notched.
        edge: Side of ``into`` from which the notch is sawn.
        play: Notch longer than the board by this in all.
        to_end: Side at which the notch goes on to the end of ``into``, so that no thin horn
            is left; None if both ends of the notch are sawn.
    """

    board: str
    into: str
    edge: Side
    play: float = 0.0
    to_end: Side | None = None

    def __post_init__(self) -> None:
        within(f"{self.board} across {self.into}", "play", self.play, 0.0, 5.0)

    @property
    def parts(self) -> tuple[str, ...]:
        """The board and the one that it crosses."""
        return self.board, self.into

    @property
    def title(self) -> str:
        """Kind of joint."""
        return "notch"

    @property
    def is_glued(self) -> bool:
        """It is glued."""
        return True

    def features(self, parts: Parts) -> Features:
        """The notch."""
        board, into = parts[self.board], parts[self.into]
        over = _overlap(board, into, self.title)
        run = 3 - into.placement.up.axis - self.edge.axis
        low = over.face(side_along(run, -1)) - self.play / 2
        high = over.face(side_along(run, 1)) + self.play / 2
        if self.to_end is not None:
            end = into.blank_box.face(self.to_end)
            low, high = (low, end) if self.to_end.sign > 0 else (end, high)
        datum = self.to_end if self.to_end is not None else datum_side(into, run)
        depth = abs(into.blank_box.face(self.edge) - over.face(self.edge.opposite))
        notch = Notch(
            name=f"notch for {board.role}",
            edge=into.surface(self.edge),
            near=_near_place(into, datum, low, high),
            length=round(high - low, 6),
            depth=round(depth, 6),
        )
        return ((into.name, notch),)

    def hardware(self, parts: Parts) -> tuple[Hardware, ...]:
        """None is bought."""
        return ()

    def proofs(self, parts: Parts) -> tuple[Proof, ...]:
        """The board bears on the floor of its notch."""
        return (Touch(one=self.board, other=self.into),)


@dataclass(frozen=True, slots=True, kw_only=True)
class Biscuits:
    """A glued butt joint with biscuits, slots in both boards.

    Attributes:
        one: Part whose edge or end is slotted.
        other: Part that it meets.
        biscuit: Size of biscuit.
        count: How many, spread evenly along the joint.
        level: Side from which the slots' height is told: both boards lie with this side on
            the bench, or against the joiner's fence.
        height: Middle of the slots from that side of ``one``; None for the middle of the
            joint, brought to a whole tenth, to which the joiner's fence is set.
    """

    one: str
    other: str
    biscuit: Biscuit
    count: int
    level: Side
    height: float | None = None

    def __post_init__(self) -> None:
        whole(f"{self.one} to {self.other}", "biscuits", self.count, 1, 40)

    @property
    def parts(self) -> tuple[str, ...]:
        """The two parts."""
        return self.one, self.other

    @property
    def title(self) -> str:
        """Kind of joint."""
        pieces = "biscuit" if self.count == 1 else "biscuits"
        return f"butt joint, {self.count} {pieces} no. {self.biscuit.number}"

    @property
    def is_glued(self) -> bool:
        """Biscuits are glued in."""
        return True

    def _places(self, parts: Parts) -> tuple[Side, int, tuple[UnitPoint, ...]]:
        """The side of ``one`` at the joint, the run axis, and the middles of the biscuits."""
        one = parts[self.one]
        side, rectangle = _contact(one, parts[self.other])
        run = 3 - side.axis - self.level.axis
        low, high = tuple(rectangle.low), tuple(rectangle.high)
        plane = (low[side.axis] + high[side.axis]) / 2
        face = one.box.face(self.level)
        height = self.height
        if height is None:
            middle = (low[self.level.axis] + high[self.level.axis]) / 2
            height = tenths(abs(face - middle))
        level = face - self.level.sign * height
        extent = high[run] - low[run]
        # Set out to tenths from both ends towards the middle, so that a mirrored joint is alike.
        offsets = [
            tenths(extent * (index + 0.5) / self.count) for index in range((self.count + 1) // 2)
        ]
        if self.count % 2:
            offsets[-1] = extent / 2
        points = []
        for index in range(self.count):
            place = [0.0, 0.0, 0.0]
            place[side.axis], place[self.level.axis] = plane, level
            mirrored = self.count - 1 - index
            is_near = index < len(offsets)
            place[run] = low[run] + offsets[index] if is_near else high[run] - offsets[mirrored]
            points.append(UnitPoint(*place))
        return side, run, tuple(points)

    def features(self, parts: Parts) -> Features:
        """One slot in each board for each biscuit."""
        side, run, points = self._places(parts)
        found: list[tuple[str, Feature]] = []
        for name, faces, mate in (
            (self.one, side, self.other),
            (self.other, side.opposite, self.one),
        ):
            part = parts[name]
            run_datum = datum_side(part, run)
            for index, point in enumerate(points):
                slot = BiscuitSlot(
                    name=_slot_name(part, faces, parts[mate].role, index, self.count),
                    surface=part.surface(faces),
                    centre=part.at(run_datum, tuple(point)[run]),
                    height=part.at(self.level, tuple(point)[self.level.axis]),
                    biscuit=self.biscuit,
                )
                found.append((name, slot))
        return tuple(found)

    def hardware(self, parts: Parts) -> tuple[Hardware, ...]:
        """The biscuits themselves."""
        side, run, points = self._places(parts)
        return tuple(
            Hardware(
                name=f"biscuit {index + 1}, {self.one} to {self.other}",
                article=f"biscuit no. {self.biscuit.number}",
                body=BiscuitPiece(biscuit=self.biscuit, along=side_along(run, 1)),
                at=point,
                axis=side,
                inside=self.parts,
            )
            for index, point in enumerate(points)
        )

    def proofs(self, parts: Parts) -> tuple[Proof, ...]:
        """The boards meet."""
        return (Touch(one=self.one, other=self.other),)


def _slot_name(part: Part, faces: Side, mate: str, index: int, count: int) -> str:
    surface = part.surface(faces)
    number = f" {index + 1}" if count > 1 else ""
    return f"slot{number} for {mate}, {surface.value}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Screwed:
    """Screws through one part into another.

    Attributes:
        through: Part that is pulled tight; it gets clearance holes with countersinks.
        into: Part that takes the thread; it gets pilot holes.
        screw: The screw.
        count: How many, at an equal pitch along the joint.
        inset: First and last screw from the ends of the joint.
        offset: Line of the screws from the joint's edge that looks to ``offset_from``;
            None for the middle of the joint.
        offset_from: See ``offset``.
        is_glued: Whether the faces are glued as well.
    """

    through: str
    into: str
    screw: Screw
    count: int
    inset: float
    offset: float | None = None
    offset_from: Side | None = None
    is_glued: bool = True

    def __post_init__(self) -> None:
        owner = f"{self.through} to {self.into}"
        whole(owner, "screws", self.count, 1, 60)
        positive(owner, "inset of the first screw", self.inset)
        if (self.offset is None) != (self.offset_from is None):
            raise DesignError(f"{owner}: an offset needs the side that it is told from", part=owner)

    @property
    def parts(self) -> tuple[str, ...]:
        """The two parts."""
        return self.through, self.into

    @property
    def title(self) -> str:
        """Kind of joint."""
        return f"{self.count} screws {self.screw.diameter:g} × {self.screw.length:g}" + (
            ", glued" if self.is_glued else ""
        )

    def _line(self, parts: Parts) -> tuple[Side, int, float, float, float]:
        """Driving direction, run axis, first place, pitch, and the line across the run."""
        through = parts[self.through]
        side, rectangle = _contact(through, parts[self.into])
        across_axes = [axis for axis in range(3) if axis != side.axis]
        run = max(across_axes, key=lambda axis: rectangle.size[axis])
        across = 3 - side.axis - run
        low, high = tuple(rectangle.low), tuple(rectangle.high)
        room = high[run] - low[run] - 2 * self.inset
        least = self.screw.head_diameter + LEAST_BETWEEN
        most = 1 + math.floor(room / least + 1e-9) if room >= -SAME else 0
        if self.count > most:
            raise DesignError(
                f"{self.through} to {self.into}: {self.count} screws, the outer ones "
                f"{self.inset:g} mm from the ends, do not fit on a joint "
                f"{high[run] - low[run]:.1f} mm long; at most {most} at {least:g} mm apart",
                part=self.through,
                value=self.count,
                limit=most,
            )
        pitch = tenths(room / (self.count - 1)) if self.count > 1 else 0.0
        first = low[run] + self.inset if self.count > 1 else (low[run] + high[run]) / 2
        if self.offset is None or self.offset_from is None:
            line = (low[across] + high[across]) / 2
        else:
            line = rectangle.face(self.offset_from) - self.offset_from.sign * self.offset
        return side, run, first, pitch, line

    def features(self, parts: Parts) -> Features:
        """Countersunk clearance holes in one part, pilot holes in the other."""
        side, run, first, pitch, line = self._line(parts)
        across = 3 - side.axis - run
        through, into = parts[self.through], parts[self.into]
        grip = through.blank_box.size[side.axis]
        within(
            f"{self.through} to {self.into}",
            "screw length",
            self.screw.length,
            grip + LEAST_THREAD,
            math.inf,
            why=f"it goes through {grip:g} and must hold in {LEAST_THREAD:g} more",
        )
        last = first + pitch * (self.count - 1)
        found: list[tuple[str, Feature]] = []
        for part, surface, diameter, depth, countersink in (
            (
                through,
                through.surface(side.opposite),
                self.screw.clearance,
                None,
                self.screw.head_diameter,
            ),
            (
                into,
                into.surface(side.opposite),
                self.screw.core,
                round(self.screw.length - grip + 1.0, 6),
                0.0,
            ),
        ):
            mate = into if part is through else through
            run_side = datum_side(part, run)
            start = _near_place(part, run_side, first, last)
            line_at = part.at(datum_side(part, across), line)
            name = ("screw holes to " if part is through else "pilot holes for ") + mate.role
            if self.count == 1:
                found.append(
                    (
                        part.name,
                        Hole(
                            name=name,
                            surface=surface,
                            centre=(start, line_at),
                            diameter=diameter,
                            depth=depth,
                            countersink=countersink,
                        ),
                    )
                )
            else:
                found.append(
                    (
                        part.name,
                        HoleRow(
                            name=name,
                            surface=surface,
                            first=start,
                            line=line_at,
                            count=self.count,
                            pitch=pitch,
                            diameter=diameter,
                            depth=depth,
                            countersink=countersink,
                        ),
                    )
                )
        return tuple(found)

    def hardware(self, parts: Parts) -> tuple[Hardware, ...]:
        """The screws in place."""
        side, run, first, pitch, line = self._line(parts)
        face = parts[self.through].blank_box.face(side.opposite)
        screws = []
        for index in range(self.count):
            place = [0.0, 0.0, 0.0]
            place[side.axis], place[run] = face, first + index * pitch
            place[3 - side.axis - run] = line
            screws.append(
                Hardware(
                    name=f"screw {index + 1}, {self.through} to {self.into}",
                    article=f"countersunk wood screw {self.screw.diameter:g} × "
                    f"{self.screw.length:g}",
                    body=self.screw,
                    at=UnitPoint(*place),
                    axis=side,
                    inside=self.parts,
                )
            )
        return tuple(screws)

    def proofs(self, parts: Parts) -> tuple[Proof, ...]:
        """The parts meet."""
        return (Touch(one=self.through, other=self.into),)


@dataclass(frozen=True, slots=True, kw_only=True)
class PinRows:
    """Shelf-pin holes in two boards that face each other, bored from one datum.

    Attributes:
        left: Board at the left of the bay.
        right: Board at the right.
        lines: Y of each row in the unit, with the row's name (``front``, ``back``).
        first: Z of the lowest hole in the unit.
        count: Holes in a row.
        pitch: Centre to centre.
        diameter: Of the holes.
        depth: Depth of the holes; None bores through.
        label: Told apart by this where a board has rows for two bays; "" otherwise.
        datum: End from which all rows are bored.
    """

    left: str
    right: str
    lines: tuple[tuple[str, float], ...]
    first: float
    count: int
    pitch: float
    diameter: float
    depth: float | None
    label: str = ""
    datum: Side = Side.BOTTOM

    @property
    def parts(self) -> tuple[str, ...]:
        """The two boards."""
        return self.left, self.right

    @property
    def title(self) -> str:
        """Kind of joint."""
        return "shelf-pin rows"

    @property
    def is_glued(self) -> bool:
        """Pins are loose."""
        return False

    def features(self, parts: Parts) -> Features:
        """The same rows in both boards, at the same heights."""
        found: list[tuple[str, Feature]] = []
        for name, faces in ((self.left, Side.RIGHT), (self.right, Side.LEFT)):
            part = parts[name]
            first = part.at(self.datum, self.first)
            if self.datum is Side.TOP:
                first = part.at(self.datum, self.first + self.pitch * (self.count - 1))
            for row, y in self.lines:
                found.append(
                    (
                        name,
                        HoleRow(
                            name=f"{row} pin row{self.label}",
                            surface=part.surface(faces),
                            first=first,
                            line=part.at(part.side(part.board.fence), y),
                            count=self.count,
                            pitch=self.pitch,
                            diameter=self.diameter,
                            depth=self.depth,
                        ),
                    )
                )
        return tuple(found)

    def hardware(self, parts: Parts) -> tuple[Hardware, ...]:
        """Pins come with the shelves that stand on them."""
        return ()

    def proofs(self, parts: Parts) -> tuple[Proof, ...]:
        """Nothing touches; that facing rows are level has a check of its own."""
        return ()


@dataclass(frozen=True, slots=True, kw_only=True)
class BoredRow:
    """A row of holes in one board, wherever it is wanted.

    Attributes:
        board: Name of the part.
        name: What the row is for.
        face: Side to which the bored surface looks.
        first: Side of the edge from which the first hole is told, and its distance.
        line: Side of the edge from which the line is told, and its distance.
        count: Number of holes.
        pitch: Centre to centre.
        diameter: Of the holes.
        depth: Depth of the holes; None bores through.
    """

    board: str
    name: str
    face: Side
    first: tuple[Side, float]
    line: tuple[Side, float]
    count: int
    pitch: float
    diameter: float
    depth: float | None

    @property
    def parts(self) -> tuple[str, ...]:
        """The board."""
        return (self.board,)

    @property
    def title(self) -> str:
        """Kind of joint."""
        return "row of holes"

    @property
    def is_glued(self) -> bool:
        """Nothing is glued."""
        return False

    def features(self, parts: Parts) -> Features:
        """The row."""
        part = parts[self.board]
        row = HoleRow(
            name=self.name,
            surface=part.surface(self.face),
            first=At(part.surface(self.first[0]), self.first[1]),
            line=At(part.surface(self.line[0]), self.line[1]),
            count=self.count,
            pitch=self.pitch,
            diameter=self.diameter,
            depth=self.depth,
        )
        return ((part.name, row),)

    def hardware(self, parts: Parts) -> tuple[Hardware, ...]:
        """None is bought."""
        return ()

    def proofs(self, parts: Parts) -> tuple[Proof, ...]:
        """Nothing touches."""
        return ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """One opening through several boards that lie on each other.

    Attributes:
        name: What it is for.
        through: Names of the boards, all at right angles to one unit axis.
        centre: Centre in the unit; the coordinate along the boards' thickness is ignored.
        size: Clear size along the two unit axes of the face, in X, Y, Z order.
        corner_radius: Radius of the corners.
        told_from: The two sides from which the centre is told.
    """

    name: str
    through: tuple[str, ...]
    centre: UnitPoint
    size: tuple[float, float]
    corner_radius: float
    told_from: tuple[Side, Side]

    @property
    def parts(self) -> tuple[str, ...]:
        """The boards that it goes through."""
        return self.through

    @property
    def title(self) -> str:
        """Kind of joint."""
        return "opening"

    @property
    def is_glued(self) -> bool:
        """Nothing is glued."""
        return False

    def features(self, parts: Parts) -> Features:
        """The same cut-out in each board."""
        found: list[tuple[str, Feature]] = []
        for name in self.through:
            part = parts[name]
            axes = [axis for axis in range(3) if axis != part.placement.up.axis]
            sizes = dict(zip(axes, self.size, strict=True))
            along, across = part.placement.along.axis, part.placement.across.axis
            first, second = (
                part.at(side, tuple(self.centre)[side.axis]) for side in self.told_from
            )
            found.append(
                (
                    name,
                    CutOut(
                        name=self.name,
                        centre=(first, second),
                        length=sizes[along],
                        width=sizes[across],
                        corner_radius=self.corner_radius,
                    ),
                )
            )
        return tuple(found)

    def hardware(self, parts: Parts) -> tuple[Hardware, ...]:
        """None is bought."""
        return ()

    def proofs(self, parts: Parts) -> tuple[Proof, ...]:
        """Nothing touches."""
        return ()
