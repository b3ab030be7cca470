"""A board let into another: a housing, or a rebate at an end. Lengths in mm."""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.board import At
from cabinet.errors import DesignError
from cabinet.features import Groove, Rebate
from cabinet.frame import Side, UnitBox, side_along
from cabinet.hardware import Hardware
from cabinet.joint.base import (
    GLUED_FIT,
    SAME,
    SLIDING_FIT,
    Features,
    Gap,
    Parts,
    Proof,
    datum_side,
    entry_side,
    near_place,
    proud_of,
    shared_box,
)
from cabinet.quantity import within


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
        entry = entry_side(board, into)
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
            if left <= proud_of(into, side) + SAME:
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
            if left <= proud_of(into, side) + max(self.endplay, SAME):
                ends.append(None)
            else:
                ends.append(into.at(datum, stop + side.sign * self.endplay))
        return ends[0], ends[1]

    def features(self, parts: Parts) -> Features:
        """A groove, or a rebate where the board lies flush with an edge."""
        board, into = parts[self.board], parts[self.into]
        entry, across, run = self._axes(parts)
        over = shared_box(board, into, self.title)
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
            near=near_place(into, datum, low, high),
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
        over = shared_box(parts[self.board], parts[self.into], self.title)
        flush = self._edge_reached(parts, across, over)
        sides = [s for s in (side_along(across, -1), side_along(across, 1)) if s is not flush]
        found: list[Proof] = [
            Gap(inner=self.board, outer=self.into, side=side, gap=self.play / 2) for side in sides
        ]
        found.append(Gap(inner=self.board, outer=self.into, side=entry.opposite, gap=self.deep))
        return tuple(found)
