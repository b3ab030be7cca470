"""The front page of the book: what a client wants to know, in a few lines."""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.motion import Motion
from cabinet.record import Record
from cabinet.wording import listed
from drawings.book_moves import BookMove
from drawings.book_pieces import mass_text
from drawings.cautions import TIPPING, WALL, WEIGHTS
from drawings.number import dimension_text
from drawings.scene import Scene


@dataclass(frozen=True, slots=True)
class Material:
    """A board that the unit is made of and its colour as a screen takes it (``#ddc193``)."""

    title: str
    colour: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Front:
    """What the front page says.

    Attributes:
        sizes: Width, height and depth with their words, mm.
        mass: Mass of the empty unit.
        standing: Whether it hangs or stands.
        materials: What it is made of.
        use: How it is used, a sentence each.
        cautions: What its user must know.
    """

    sizes: tuple[tuple[str, str], ...]
    mass: str
    standing: str
    materials: tuple[Material, ...]
    use: tuple[str, ...]
    cautions: tuple[str, ...]


def front(scene: Scene, record: Record, moves: tuple[BookMove, ...]) -> Front:
    """The front page of a job.

    Args:
        scene: The unit, for the colours of its boards.
        record: The content of job.json.
        moves: Its moves.
    """
    low, high = record["outline"]["low"], record["outline"]["high"]
    width, depth, height = (dimension_text(far - near) for near, far in zip(low, high, strict=True))
    is_hung = record["is_hung"]
    return Front(
        sizes=(("Width", width), ("Height", height), ("Depth", depth)),
        mass=mass_text(record["mass_kg"]),
        standing="hangs on the wall" if is_hung else "stands on the floor",
        materials=_materials(scene),
        use=_use(record, moves),
        cautions=(WALL if is_hung else TIPPING, WEIGHTS),
    )


def _materials(scene: Scene) -> tuple[Material, ...]:
    stocks = dict.fromkeys(part.board.stock for part in scene.unit.parts)
    return tuple(
        Material(stock.title, "#" + "".join(f"{round(c * 255):02x}" for c in stock.colour))
        for stock in stocks
    )


def _use(record: Record, moves: tuple[BookMove, ...]) -> tuple[str, ...]:
    """A sentence for each thing that its user can move; shelves that move alike share one."""
    shelves: dict[str, list[str]] = {}
    told = []
    for move, raw in zip(moves, record["moves"], strict=True):
        if raw["motion"] == Motion.SHELF.value and move.pitch is not None:
            shelves.setdefault(move.travel, []).append(raw["name"].removesuffix(" by its pins"))
        elif raw["motion"] == Motion.SLIDE.value:
            told.append(f"The {raw['name']} {move.travel}.")
        elif raw["motion"] == Motion.LIFT.value:
            told.append(f"The {raw['name']} {move.travel} to come out.")
        else:
            told.append(f"To take it down, the unit is lifted {move.travel}, off its cleat.")
    set_at = (
        f"The {listed(names)} can {'each ' if len(names) > 1 else ''}be set at {travel}."
        for travel, names in shelves.items()
    )
    return (*set_at, *told)
