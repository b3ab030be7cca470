"""A sliding door in its pair of grooves. Lengths in mm."""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.features import Groove, Rebate, Tolerance
from cabinet.frame import Side, UnitPoint
from cabinet.hardware import Hardware, Rod
from cabinet.joint.base import SLIDING_FIT, Features, Gap, Parts, Proof, Touch
from cabinet.quantity import positive, within


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
