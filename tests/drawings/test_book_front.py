"""What the front page of the book says of the unit's use."""

from __future__ import annotations

from cabinet.record import Record
from drawings.book_front import front
from drawings.book_moves import BookMove
from drawings.scene import scene
from tests.examples import example_unit


def shelf(name: str, high: float) -> tuple[Record, BookMove]:
    """The move of a shelf as job.json and the book have it."""
    label = f"{name} by its pins"
    raw: Record = {"name": label, "motion": "is set at another height"}
    return raw, BookMove(
        label=label,
        names=(name,),
        direction=(0, 0, 1),
        low=-64.0,
        high=high,
        pitch=32.0,
        ahead="up",
        astern="down",
    )


def test_shelves_that_can_be_set_alike_share_a_sentence() -> None:
    moves = [shelf("left shelf", 96.0), shelf("tray", 32.0), shelf("right shelf", 96.0)]
    record: Record = {
        "outline": {"low": [0, 0, -90], "high": [840, 372, 1780]},
        "mass_kg": 35.1,
        "is_hung": False,
        "moves": [raw for raw, _ in moves],
    }
    told = front(scene(example_unit("pantry_cupboard")), record, tuple(m for _, m in moves))
    assert told.use == (
        "The left shelf and right shelf can each be set at 6 heights, 32 mm apart.",
        "The tray can be set at 4 heights, 32 mm apart.",
    )
