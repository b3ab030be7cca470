"""Whether a piece that is cut already can still become the part that is now wanted.

A tool only takes away. So a piece serves if it is of the right board, at least as long and wide
as is wanted, and everything cut into it lies within what is to be cut anyway. Both are laid
against the same stop and the same fence. A board that is measured anew is still the same board:
its depths and heights are told from its faces and go with them. Lengths in mm.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum

from cabinet.board import BoardBox, BoardSize
from cabinet.features import Bevel, CutOut, Feature, FlushTrim, Groove, Hole, HoleRow, Notch, Rebate
from cabinet.making.earlier import CutPiece
from cabinet.part import shape_key
from cabinet.quantity import written

# What no tool and no rule tells apart, mm (common practice, no source).
SAME = 0.05
# Names of what a size runs along.
_RUNS = ("length", "width")


class Fate(Enum):
    """What becomes of a piece."""

    SAME = "unchanged"
    REWORK = "re-work"
    ANEW = "make anew"
    NEW = "new"
    DROPPED = "no longer wanted"


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """What a change in the design does to one part.

    Attributes:
        part: Name of the part.
        fate: What becomes of its piece.
        steps: What is done to the piece, or why it cannot serve, one sentence each.
    """

    part: str
    fate: Fate
    steps: tuple[str, ...] = ()


def compared(earlier: CutPiece | None, now: CutPiece | None) -> Change:
    """What becomes of a piece.

    Args:
        earlier: The part as it was; None if there was none.
        now: The part as it is wanted; None if it is wanted no more.
    """
    if earlier is None or now is None:
        piece = now or earlier
        if piece is None:
            raise AssertionError("one of the two must be there")
        fate = Fate.NEW if earlier is None else Fate.DROPPED
        return Change(part=piece.name, fate=fate)
    against = tuple(_against(earlier, now))
    if against:
        return Change(part=now.name, fate=Fate.ANEW, steps=against)
    steps = (*_measured_anew(earlier, now), *_cut_down(earlier, now), *_cut_further(earlier, now))
    if not steps:
        return Change(part=now.name, fate=Fate.SAME)
    is_only_told = all(step.startswith(_NOTHING) for step in steps)
    return Change(part=now.name, fate=Fate.SAME if is_only_told else Fate.REWORK, steps=steps)


_NOTHING = "nothing to cut"


def _measured_anew(earlier: CutPiece, now: CutPiece) -> Iterator[str]:
    if abs(earlier.measured - now.measured) > 1e-6:
        yield (
            f"{_NOTHING}: the board is the same, measured {written(now.measured)} instead of "
            f"{written(earlier.measured)}"
        )


def _against(earlier: CutPiece, now: CutPiece) -> Iterator[str]:
    """Reasons why the piece cannot serve."""
    was, wanted = earlier.material, now.material
    if (earlier.material, earlier.nominal) != (now.material, now.nominal):
        was, wanted = (f"{p.material} {written(p.nominal)}" for p in (earlier, now))
        yield f"it is {was} and {wanted} is wanted"
        return
    if earlier.layers != now.layers:
        yield f"it has {earlier.layers} boards face to face and {now.layers} are wanted"
        return
    if earlier.grain != now.grain:
        yield f"its face grain runs {earlier.grain} and is wanted {now.grain}"
    for axis, name in enumerate(_RUNS):
        short = now.size.along[axis] - earlier.size.along[axis]
        if short > SAME:
            yield (
                f"its {name} is {written(earlier.size.along[axis])}, {written(short)} less than "
                f"the {written(now.size.along[axis])} wanted"
            )
    stray = {
        name: _beyond(feature, box, now)
        for name, feature, box in _there(earlier, now)
        if not _is_taken_up(feature, box, now)
    }
    if stray:
        told = [f"{name}{by}" for name, by in stray.items()]
        yield f"it is cut where that is not wanted now: {', '.join(told)}"


def _there(earlier: CutPiece, now: CutPiece) -> Iterator[tuple[str, Feature, BoardBox]]:
    """What is cut into the piece, each with its box in the frame of the board wanted."""
    for name, feature in _single(earlier.features):
        yield name, feature, _laid(feature.box(_physical(earlier, now)), earlier, now)


def _physical(earlier: CutPiece, now: CutPiece) -> BoardSize:
    """The piece's true sizes: as long and wide as it was cut, as thick as it is now measured."""
    return BoardSize(earlier.size.length, earlier.size.width, now.size.thickness)


def _laid(box: BoardBox, earlier: CutPiece, now: CutPiece) -> BoardBox:
    """A box of the piece in the frame of the board wanted, both against stop and fence."""
    moves = [0.0, 0.0, 0.0]
    for axis, datum in enumerate((now.stop, now.fence)):
        if datum.axis == axis and datum.sign > 0:
            moves[axis] = now.size.along[axis] - earlier.size.along[axis]
    low = [value + move for value, move in zip(box.low, moves, strict=True)]
    high = [value + move for value, move in zip(box.high, moves, strict=True)]
    return BoardBox(low=(low[0], low[1], low[2]), high=(high[0], high[1], high[2]))


def _single(features: tuple[Feature, ...]) -> Iterator[tuple[str, Feature]]:
    """Features one by one, a row of holes as its holes, each with what it is called."""
    for feature in features:
        for one in feature.holes if isinstance(feature, HoleRow) else (feature,):
            yield feature.name, one


def _is_taken_up(feature: Feature, box: BoardBox, now: CutPiece) -> bool:
    """Whether a cut that is there lies within a cut that is wanted, or beyond the board."""
    length, width, _ = now.size.along
    is_beyond = (
        box.low[0] >= length - SAME
        or box.high[0] <= SAME
        or box.low[1] >= width - SAME
        or box.high[1] <= SAME
    )
    return is_beyond or any(
        _lies_within(feature, box, wanted, now.size) for _, wanted in _single(now.features)
    )


def _lies_within(feature: Feature, box: BoardBox, wanted: Feature, size: BoardSize) -> bool:
    """Whether all that a cut took away is taken away by a cut that is wanted."""
    if isinstance(feature, FlushTrim):
        # Nothing is cut before the glue is dry.
        return True
    if not _may_become(feature, wanted):
        return False
    outer = _open(wanted, size)
    if isinstance(feature, Hole) and isinstance(wanted, Hole):
        return _is_bored_open(feature, box, wanted, size)
    radius, axes = _corners(wanted)
    if _corners(feature)[0] < radius - SAME:
        # Corners sharper than the rounded ones: within one of the two arms of their cross.
        return any(_holds(_narrowed(outer, axis, radius), box) for axis in axes)
    return _holds(outer, box)


def _corners(feature: Feature) -> tuple[float, tuple[int, ...]]:
    """Radius of a cut's corners, 0 for none, and the axes along which they draw it in."""
    if isinstance(feature, CutOut):
        return feature.corner_radius, (0, 1)
    if isinstance(feature, Groove):
        return feature.end_radius, (feature.run_axis, feature.near.axis)
    return 0.0, ()


def _is_bored_open(feature: Hole, box: BoardBox, wanted: Hole, size: BoardSize) -> bool:
    """Whether a hole is bored wider, deeper or through: about one middle, its countersink kept."""
    axis, new = wanted.surface.axis, wanted.box(size)
    if feature.surface.axis != axis or not _holds(_open(wanted, size), box):
        return False
    is_about_it = all(
        abs(box.low[a] + box.high[a] - new.low[a] - new.high[a]) <= 2 * SAME
        for a in range(3)
        if a != axis
    )
    is_bored = feature.diameter <= wanted.diameter + SAME
    # A cone stays unless the new hole, or a larger cone at the same surface, takes it.
    is_sunk = feature.countersink <= wanted.diameter + SAME or (
        feature.surface is wanted.surface and feature.countersink <= wanted.countersink + SAME
    )
    return is_about_it and is_bored and is_sunk


def _narrowed(box: BoardBox, axis: int, by: float) -> BoardBox:
    low, high = list(box.low), list(box.high)
    low[axis], high[axis] = low[axis] + by, high[axis] - by
    return BoardBox(low=(low[0], low[1], low[2]), high=(high[0], high[1], high[2]))


def _may_become(feature: Feature, wanted: Feature) -> bool:
    """Whether one cut can be part of the other by its kind, if its place is."""
    if isinstance(feature, Bevel) or isinstance(wanted, Bevel):
        return (
            isinstance(feature, Bevel)
            and isinstance(wanted, Bevel)
            and (feature.edge, feature.sharp, feature.angle)
            == (wanted.edge, wanted.sharp, wanted.angle)
        )
    return type(feature) is type(wanted) or isinstance(wanted, Groove | Rebate | CutOut | Notch)


def _beyond(feature: Feature, box: BoardBox, now: CutPiece) -> str:
    """By how much a cut reaches out of the nearest wanted cut of its kind, in words."""
    over = [
        max(
            *(a - b for a, b in zip(outer.low, box.low, strict=True)),
            *(b - a for a, b in zip(outer.high, box.high, strict=True)),
        )
        for _, wanted in _single(now.features)
        if type(wanted) is type(feature)
        for outer in (_open(wanted, now.size),)
    ]
    return f" ({written(round(min(over), 2))} too far)" if over and min(over) > SAME else ""


def _open(feature: Feature, size: BoardSize) -> BoardBox:
    """A cut's box, which goes on without end where it leaves the board."""
    box = feature.box(size)
    far = 1.0e6
    low = [-far if a <= SAME else a for a in box.low]
    high = [
        far if b >= extent - SAME else b for b, extent in zip(box.high, size.along, strict=True)
    ]
    return BoardBox(low=(low[0], low[1], low[2]), high=(high[0], high[1], high[2]))


def _holds(outer: BoardBox, inner: BoardBox) -> bool:
    return all(a <= b + SAME for a, b in zip(outer.low, inner.low, strict=True)) and all(
        b <= a + SAME for a, b in zip(outer.high, inner.high, strict=True)
    )


def _cut_down(earlier: CutPiece, now: CutPiece) -> Iterator[str]:
    """Cuts that make the piece smaller, at the side away from stop or fence."""
    for axis, (name, datum) in enumerate(zip(_RUNS, ("stop", "fence"), strict=True)):
        spare = earlier.size.along[axis] - now.size.along[axis]
        if spare > SAME:
            yield (
                f"cut its {name} from {written(earlier.size.along[axis])} to "
                f"{written(now.size.along[axis])}, away from the {datum}"
            )


def _cut_further(earlier: CutPiece, now: CutPiece) -> Iterator[str]:
    """Cuts that are wanted and not there, or not there yet in full."""
    there = [(feature, box) for _, feature, box in _there(earlier, now)]
    # Holes of a row are told together.
    further: Counter[str] = Counter()
    added: Counter[str] = Counter()
    for name, wanted in _single(now.features):
        box = wanted.box(now.size)
        if isinstance(wanted, FlushTrim) or any(
            _are_one(feature, old, wanted, box, now) for feature, old in there
        ):
            continue
        parts = [
            old
            for feature, old in there
            if type(feature) is type(wanted) and _lies_within(feature, old, wanted, now.size)
        ]
        if parts:
            further[f"cut {name} further: {_grown(parts[0], box)}"] += 1
        else:
            added[f"add {name}"] += 1
    for step, count in (*further.items(), *added.items()):
        yield step if count == 1 else f"{step}, {count} times"


def _are_one(
    feature: Feature, old: BoardBox, wanted: Feature, box: BoardBox, now: CutPiece
) -> bool:
    if type(feature) is not type(wanted):
        return False
    gaps = [abs(a - b) for a, b in zip((*old.low, *old.high), (*box.low, *box.high), strict=True)]
    return max(gaps) <= SAME and _same_shape(feature, wanted, now.size)


def _same_shape(feature: Feature, wanted: Feature, size: BoardSize) -> bool:
    """Whether two cuts of one box are of one shape: radii, angles, countersinks."""
    mine, other = shape_key(feature, size), shape_key(wanted, size)
    return (mine[0], mine[3]) == (other[0], other[3]) and all(
        abs(a - b) <= SAME for a, b in zip(_numbers(mine), _numbers(other), strict=True)
    )


def _numbers(key: tuple[object, ...]) -> tuple[float, ...]:
    told = key[2]
    return tuple(float(v) for v in told) if isinstance(told, tuple) else ()


def _grown(old: BoardBox, box: BoardBox) -> str:
    """By what a cut becomes larger."""
    names = ("along the length", "across the width", "through the thickness")
    grown = [
        f"{name} {written(was)} to {written(becomes)}"
        for name, was, becomes in zip(names, old.size, box.size, strict=True)
        if abs(was - becomes) > SAME
    ]
    return ", ".join(grown) or "to its new shape"
