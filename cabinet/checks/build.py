"""Building up: things taken apart in thought, told the other way round as steps of the work.

A piece is something rigid that is handled as one: a single board with its biscuits, or what was
put together before. Lengths in mm in the unit's frame.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from cabinet.assembly import Stage
from cabinet.checks.bricks import Bricks, together
from cabinet.checks.takedown import Key, Puzzle, TakeDown, Ways
from cabinet.frame import Side

Pairs = Mapping[str, tuple[tuple[str, ...], ...]]

# Sides close a frame last, and what stays to the end lies lowest on the bench.
FRAME_WAYS: Ways = (Side.LEFT, Side.RIGHT, Side.TOP, Side.FRONT, Side.BACK, Side.BOTTOM)


@dataclass(frozen=True, slots=True)
class Draft:
    """A step that has no number yet.

    Attributes:
        bodies: What moves.
        standing: All that stands of what it is added to; empty for what begins.
        side: Way it moves; None for what begins.
        travel: Length of the move, mm.
        stage: When.
        goes: What is glued in one go shares this key; "" if nothing is glued.
    """

    bodies: tuple[str, ...]
    standing: tuple[str, ...]
    side: Side | None
    travel: float
    stage: Stage
    goes: str = ""


@dataclass(frozen=True, slots=True)
class Piece:
    """Something rigid, and how it was put together.

    Attributes:
        bricks: Its bricks.
        bodies: Names of its parts and hardware.
        drafts: The steps by which it was put together; none for a single board.
    """

    bricks: Bricks
    bodies: tuple[str, ...]
    drafts: tuple[Draft, ...] = ()


@dataclass(slots=True)
class Build:
    """What a frame or a whole became.

    Attributes:
        piece: The piece.
        stuck: Pieces that do not come apart from each other, or from what is fixed.
    """

    piece: Piece
    stuck: tuple[Piece, ...] = ()


@dataclass(slots=True)
class _Work:
    """The steps as they are told, and what stands."""

    goes: str
    drafts: list[Draft] = field(default_factory=list)
    standing: list[Piece] = field(default_factory=list)

    def begin(self, pieces: Sequence[Piece]) -> None:
        for piece in pieces:
            self.drafts += piece.drafts
        bodies = tuple(body for piece in pieces for body in piece.bodies)
        self.drafts.append(Draft(bodies, (), None, 0.0, Stage.GLUED, self.goes))
        self.standing += pieces

    def add(self, pieces: Sequence[Piece], side: Side, far: float) -> None:
        for piece in pieces:
            self.drafts += piece.drafts
        bodies = tuple(body for piece in pieces for body in piece.bodies)
        stands = tuple(body for piece in self.standing for body in piece.bodies)
        self.drafts.append(Draft(bodies, stands, side, far, Stage.GLUED, self.goes))
        self.standing += pieces


def merged(pieces: Sequence[Piece], drafts: Sequence[Draft] = ()) -> Piece:
    """Several pieces as one, with the steps that made it."""
    return Piece(
        together(piece.bricks for piece in pieces),
        tuple(body for piece in pieces for body in piece.bodies),
        tuple(drafts),
    )


def frame(pieces: Sequence[Piece], pairs: Pairs, goes: str) -> Build:
    """Put the pieces of a frame together.

    Args:
        pieces: At least one.
        pairs: For each body the sets of bodies that it is joined with.
        goes: Key of the gluing; "" if nothing is glued.
    """
    if len(pieces) == 1:
        return Build(pieces[0])
    things = [piece.bricks for piece in pieces]
    down = Puzzle(things, FRAME_WAYS, lambda _: (), tied=_tied(pieces, pairs)).solve()
    work = _Work(goes)
    work.begin([pieces[i] for i in down.kept or down.locked])
    for removal in reversed(down.removals):
        members = [pieces[i] for i in removal.things]
        if len(members) > 1:
            group = frame(members, pairs, f"{goes}, {members[0].bodies[0]}" if goes else "")
            if group.stuck:
                return Build(merged(pieces, work.drafts), group.stuck)
            members = [group.piece]
        work.add(members, removal.side.opposite, removal.travel)
    stuck = tuple(pieces[i] for i in down.locked)
    return Build(merged(pieces, work.drafts), stuck)


def _tied(pieces: Sequence[Piece], pairs: Pairs) -> frozenset[tuple[int, int]]:
    place = {body: index for index, piece in enumerate(pieces) for body in piece.bodies}
    found = set()
    for body in place:
        for pair in pairs.get(body, ()):
            ends = sorted({place[name] for name in pair if name in place})
            found |= {(ends[0], other) for other in ends[1:]}
    return frozenset(found)


def beginning(piece: Piece, goes: str) -> tuple[Draft, ...]:
    """The steps of a piece that is to be built on: a single one begins by lying there."""
    return piece.drafts or (Draft(piece.bodies, (), None, 0.0, Stage.GLUED, goes),)


def take_off(root: Piece, pieces: Sequence[Piece], ways: Ways, key: Key) -> TakeDown:
    """Take pieces off a root that stays; index 0 is the root."""
    things = [root.bricks, *(piece.bricks for piece in pieces)]
    return Puzzle(things, ways, key, frozenset({0})).solve()


def at_stage(draft: Draft, stage: Stage) -> Draft:
    """The step at another stage."""
    return replace(draft, stage=stage)
