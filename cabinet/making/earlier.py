"""A piece as an earlier job described it, read back from that job's own record.

Only what decides whether a piece that is cut already can still be used is read: what it is cut
from, its sizes and its features. Lengths in mm.
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from enum import Enum
from types import UnionType
from typing import Any, get_args, get_type_hints

from cabinet.board import At, BoardSize, Surface
from cabinet.errors import CabinetError, DesignError
from cabinet.features import Feature, Tolerance
from cabinet.part import Part

_KINDS = {kind.__name__: kind for kind in get_args(Feature)}


@dataclass(frozen=True, slots=True, kw_only=True)
class CutPiece:
    """A part as far as it can be seen on the bench.

    Attributes:
        name: Name of the part.
        material: What it is cut from.
        nominal: Nominal thickness of one board, mm.
        measured: Its measured thickness, mm.
        layers: How many boards are glued face to face.
        grain: Which way the face grain runs, in words.
        size: Sizes before any flush trim, mm.
        stop: The end that lies against the stop.
        fence: The edge that lies against the fence.
        features: What is cut into it.
    """

    name: str
    material: str
    nominal: float
    measured: float
    layers: int
    grain: str
    size: BoardSize
    stop: Surface
    fence: Surface
    features: tuple[Feature, ...]


def piece_of(part: Part) -> CutPiece:
    """A part of the present design as it will lie on the bench."""
    board = part.board
    return CutPiece(
        name=part.name,
        material=board.stock.material,
        nominal=board.stock.nominal,
        measured=board.stock.measured,
        layers=board.layers,
        grain=board.grain.value,
        size=board.size,
        stop=board.stop,
        fence=board.fence,
        features=board.features,
    )


def piece_from_record(record: dict[str, Any]) -> CutPiece:
    """A part of an earlier job.

    Args:
        record: The part as it stands in that job's job.json.

    Raises:
        DesignError: the record is not one that this version writes.
    """
    name = str(record.get("name", "?"))
    try:
        blank, size = record["blank"], record["blank"]["before_trimming"]
        sides = {side: surface for surface, side in record["surfaces"].items()}
        return CutPiece(
            name=name,
            material=blank["material"],
            nominal=float(blank["nominal_thickness"]),
            measured=float(blank["measured_thickness"]),
            layers=int(blank["layers"]),
            grain=blank["grain"],
            size=BoardSize(*(float(size[key]) for key in ("length", "width", "thickness"))),
            stop=_surface(sides, record["datum"]["stop"]),
            fence=_surface(sides, record["datum"]["fence"]),
            features=tuple(feature_from_record(one) for one in record["features"]),
        )
    except (KeyError, TypeError, ValueError, AttributeError) as error:
        if isinstance(error, CabinetError):
            raise
        raise DesignError(
            f"{name}: the earlier job tells of it in a way that cannot be read ({error!r}); "
            "compare with a job that this version wrote",
            part=name,
            value=repr(error),
            limit="a record of this version",
        ) from error


def _surface(sides: dict[str, str], told: str) -> Surface:
    """The surface that the maker calls ``front edge`` or ``left end``."""
    return Surface(sides[told.split(maxsplit=1)[0]])


def feature_from_record(record: dict[str, Any]) -> Feature:
    """A feature from its record, as ``cabinet.record.feature_record`` wrote it.

    Raises:
        KeyError, TypeError, ValueError: it is no such record.
    """
    kind = _KINDS[record["kind"]]
    hints = get_type_hints(kind)
    values = {f.name: _value(hints[f.name], record[f.name]) for f in fields(kind)}
    feature: Feature = kind(**values)
    return feature


def _value(hint: Any, told: Any) -> Any:  # noqa: ANN401 - what JSON holds has no narrower type
    if told is None:
        return None
    choices = get_args(hint) if isinstance(hint, UnionType) else (hint,)
    kind = next(choice for choice in choices if choice is not type(None))
    if isinstance(told, list):
        inner = get_args(kind)[0]
        return tuple(_value(inner, one) for one in told)
    return _one_value(kind, told)


def _one_value(kind: Any, told: Any) -> Any:  # noqa: ANN401 - as above
    if kind is At:
        return At(Surface(told["from"]), float(told["distance"]))
    if kind is Tolerance:
        return Tolerance(float(told["lower"]), float(told["upper"]))
    if isinstance(kind, type) and issubclass(kind, Enum):
        # Enums whose values are no words are told by their names.
        names = {name.lower(): member for name, member in kind.__members__.items()}
        return names[told] if told in names else kind(told)
    return float(told) if kind is float else told
