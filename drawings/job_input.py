"""What is handed to a run, checked before anything is computed."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from pathlib import Path

from cabinet.design import Design
from cabinet.errors import SizeError
from cabinet.making.quote import Prices, Rates
from cabinet.making.rack import Rack
from cabinet.quantity import kind_of, named
from cabinet.site.lift import Lift
from cabinet.site.room.setting import Setting
from cabinet.site.walls import require_wall
from cabinet.workshop import Workshop

_NEEDED: tuple[tuple[str, type, str], ...] = (
    ("workshop", Workshop, "Workshop(...)"),
    ("as_draft", bool, "True or False"),
)
_IF_GIVEN: tuple[tuple[str, type, str], ...] = (
    ("place", Setting, "Setting(room=..., at=...)"),
    ("moved_from", Setting, "Setting(room=..., at=...)"),
    ("lift", Lift, "Lift(to=...)"),
    ("rack", Rack, "Rack(leftovers=..., sheets=...)"),
    ("rates", Rates, "Rates(...)"),
    ("prices", Prices, "Prices(currency=..., each=...)"),
)


def check_input(design: object, given: Mapping[str, object]) -> None:
    """Refuse what a run cannot work with.

    Args:
        design: The design.
        given: What else is handed over, by the names that ``write_job`` has for it.

    Raises:
        KindError: something is of another kind than is asked for.
        SizeError: a name that is none, or a date that is not year, month and day.
        UnknownNameError: a wall that is none.
    """
    name = kind_of("job", "design", design, Design, right="a Design of named parts").name
    for who in ("owner", "creator"):
        named(name, who, given[who])
    _check_date(name, given["date"])
    for what, kind, right in _NEEDED:
        kind_of(name, what, given[what], kind, right=right)
    for what, kind, right in _IF_GIVEN:
        if given[what] is not None:
            kind_of(name, what, given[what], kind, right=right)
    if given["wall"] is not None:
        require_wall(name, given["wall"])


def path_of(owner: str, name: str, value: str | Path) -> Path:
    """A path, if it is one.

    Raises:
        KindError: it is something else.
    """
    if isinstance(value, str):
        return Path(value)
    return kind_of(owner, name, value, Path, right="a path, such as 'cupboard.job'")


def _check_date(owner: str, date: object) -> None:
    right = "year, month and day, such as '2031-05-09', or ''"
    text = kind_of(owner, "date", date, str, right=right)
    try:
        if text:
            dt.date.fromisoformat(text)
    except ValueError as error:
        raise SizeError(
            f"{owner}: date is {text!r}; give {right}", part=owner, value=text, limit="ISO 8601"
        ) from error
