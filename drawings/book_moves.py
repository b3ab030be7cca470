"""The moves of a unit as the book shows them: which pieces, which way, how far, in what steps."""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.frame import Side
from cabinet.motion import Motion
from cabinet.record import Record
from drawings.number import dimension_text

DIRECTIONS: dict[str, tuple[int, int, int]] = {
    Side.LEFT.value: (-1, 0, 0),
    Side.RIGHT.value: (1, 0, 0),
    Side.FRONT.value: (0, -1, 0),
    Side.BACK.value: (0, 1, 0),
    Side.BOTTOM.value: (0, 0, -1),
    Side.TOP.value: (0, 0, 1),
}
_WORDS: dict[tuple[int, int, int], tuple[str, str]] = {
    (1, 0, 0): ("to the right", "to the left"),
    (0, 1, 0): ("to the back", "to the front"),
    (0, 0, 1): ("up", "down"),
}
_NEAR = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class BookMove:
    """A move with its control.

    Attributes:
        label: What the control does, in words.
        names: Names of the pieces that move.
        direction: Unit vector of positive travel, in the frame of the unit.
        low: Least travel, mm.
        high: Greatest travel, mm.
        pitch: Distance from one setting to the next, mm; None where any travel can be set.
        ahead: Words for positive travel.
        astern: Words for negative travel.
    """

    label: str
    names: tuple[str, ...]
    direction: tuple[int, int, int]
    low: float
    high: float
    pitch: float | None
    ahead: str
    astern: str

    @property
    def settings(self) -> int:
        """How many settings there are; 0 where any travel can be set."""
        return 0 if self.pitch is None else round((self.high - self.low) / self.pitch) + 1

    @property
    def here(self) -> int:
        """Which setting the design shows, from 1 at the lowest; 0 where there are none."""
        return 0 if self.pitch is None else round(-self.low / self.pitch) + 1

    @property
    def travel(self) -> str:
        """Its whole range in words."""
        if self.pitch is not None:
            return f"{self.settings} heights, {dimension_text(self.pitch)} mm apart"
        ways = [(self.high, self.ahead), (-self.low, self.astern)]
        told = [f"{dimension_text(far)} mm {way}" for far, way in ways if far > 0]
        return " or ".join(told)


def book_moves(record: Record) -> tuple[BookMove, ...]:
    """All moves of a job.

    Args:
        record: The content of job.json.
    """
    return tuple(_book_move(record, move) for move in record["moves"])


def _book_move(record: Record, move: Record) -> BookMove:
    names, label = _with_what_they_carry(record, move["parts"]), str(move["name"])
    low, high = float(move["low"]), float(move["high"])
    x, y, z = DIRECTIONS[move["direction"]]
    if move["motion"] == Motion.DROP.value:
        # The move is told as the unit sees it; on the page the wall stays and the unit rises.
        names = tuple(name for name in _all_names(record) if name not in names)
        label, (x, y, z) = "unit lifted off its cleat", (-x, -y, -z)
    if x + y + z < 0:
        x, y, z, low, high = -x, -y, -z, -high, -low
    ahead, astern = _WORDS[x, y, z]
    is_set = move["motion"] == Motion.SHELF.value
    return BookMove(
        label=label,
        names=names,
        direction=(x, y, z),
        low=low + 0.0,
        high=high + 0.0,
        pitch=_pitch(record, names, high - low) if is_set else None,
        ahead=ahead,
        astern=astern,
    )


def _all_names(record: Record) -> list[str]:
    return [piece["name"] for piece in (*record["parts"], *record["hardware"])]


def _with_what_they_carry(record: Record, names: list[str]) -> tuple[str, ...]:
    """The pieces and the hardware that sits in them and in no other part of the unit."""
    others = {part["name"] for part in record["parts"]} - set(names)
    carried = [
        item["name"]
        for item in record["hardware"]
        if set(item["inside"]) & set(names) and not set(item["inside"]) & others
    ]
    return tuple(dict.fromkeys((*names, *carried)))


def _pitch(record: Record, names: tuple[str, ...], span: float) -> float | None:
    """The pitch of the rows of holes that take the pins of a shelf, mm, if there is only one."""
    boards = {
        board
        for item in record["hardware"]
        if item["name"] in names
        for board in item["inside"]
        if board not in names
    }
    pitches = {
        float(feature["pitch"])
        for part in record["parts"]
        if part["name"] in boards
        for feature in part["features"]
        if feature["kind"] == "HoleRow"
    }
    fitting = [pitch for pitch in pitches if abs(span / pitch - round(span / pitch)) < _NEAR]
    return fitting[0] if len(fitting) == 1 else None
