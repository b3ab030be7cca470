"""The order of the cuts: one after another, with the fence's distance, what is cut and what comes.

Any part may be cut as soon as it is free. Of all that is free the fence decides: what needs the
distance at which it stands comes first, and the distances follow each other so that it is set
least often. ``bench`` makes the cuts again with nothing but the list
in hand, and proves that it ends with every part in its place. Lengths in mm.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace

from cabinet.errors import DesignError
from cabinet.making.fence_order import fence_order
from cabinet.making.guillotine import Axis, Node, from_grid, to_grid
from cabinet.making.outline import Rect, Wood

# A thing runs along the fence if so much of its edge is there; else it is sawn along a rail
# (common practice, no source).
_LEAST_EDGE = 0.5
_EDGE_DEPTH = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """One through cut.

    Attributes:
        number: Its number on this board, from 1.
        axis: Along which side of the board its parts lie; the cut itself runs across this.
        fence: From the edge at the fence to the cut: the size of what comes off.
        takes: Name of what is cut.
        gives: Name of what comes off.
        leaves: Name of what is left of it, "" if nothing but dust is.
        dust: Where the blade runs.
        is_trim: Whether it only makes an edge straight.
        by_rail: Whether no straight edge runs along a fence, so that it is set out and sawn along
            a rail.
    """

    number: int
    axis: Axis
    fence: float
    takes: str
    gives: str
    leaves: str
    dust: Rect
    is_trim: bool = False
    by_rail: bool = False


@dataclass(kw_only=True)
class _Step:
    """One cut of a thing: what comes off, or nothing if it only makes an edge straight."""

    dust: Rect
    child: _Work | None


@dataclass(kw_only=True)
class _Work:
    """Something on the bench: a node in its place, and how far it has been cut."""

    node: Node
    rect: Rect
    name: str
    steps: list[_Step] = field(default_factory=list)
    last: _Work | None = None
    done: int = 0
    is_free: bool = False

    @property
    def children(self) -> Iterator[_Work]:
        """What it is cut into."""
        yield from (step.child for step in self.steps if step.child is not None)
        if self.last is not None:
            yield self.last


def tidied(node: Node) -> Node:
    """The same cuts with equal parts side by side, larger ones first and the rest last.

    Only for a board without flaws: its parts change places.
    """
    if node.axis is None:
        return node
    is_along = node.axis is Axis.LENGTH

    def order(part: Node) -> tuple[bool, float, str]:
        return part.is_rest, -(part.length if is_along else part.width), _first(part)

    return replace(node, parts=tuple(sorted((tidied(part) for part in node.parts), key=order)))


def _first(node: Node) -> str:
    return min((part.piece for part in _leaves(node)), default="")


def _leaves(node: Node) -> Iterator[Node]:
    if node.axis is None:
        yield node
    for part in node.parts:
        yield from _leaves(part)


def cuts_of(
    root: Node,
    *,
    name: str,
    kerf: float,
    trim: float,
    size: tuple[float, float],
    wood: Wood,
    rests: Mapping[tuple[int, int], str],
) -> tuple[Cut, ...]:
    """All cuts of a board in the order in which they are made.

    Args:
        root: The board within its trimmed edges.
        name: What the board is called.
        kerf: Width of a cut.
        trim: Cut off along each edge first, kerf included.
        size: The board's length and width.
        wood: Where there is wood; where there is none nothing is cut.
        rests: What is left over is called, by its low ``corner``.
    """
    found = _trims(name, trim, size)
    rect = Rect(trim, trim, root.length, root.width)
    top = _Bench(kerf=kerf, wood=wood, rests=rests).work(root, rect, name)
    top.is_free = True
    lines = _Lines()
    lines.add(top, None)
    following = iter(fence_order(lines.freed_by, lines.fences).fences)
    fence: int | None = None
    while True:
        ready = list(_ready(top))
        if not ready:
            return tuple(found)
        work = next((work for work in ready if _fence(work) in (None, fence)), None)
        if work is None:
            fence = next(following)
        else:
            found.append(_made(work, len(found) + 1, wood))


def _trims(name: str, trim: float, size: tuple[float, float]) -> list[Cut]:
    if trim <= 0:
        return []
    length, width = size
    strips = (
        (Axis.WIDTH, Rect(0.0, 0.0, length, trim)),
        (Axis.WIDTH, Rect(0.0, width - trim, length, trim)),
        (Axis.LENGTH, Rect(0.0, trim, trim, width - 2 * trim)),
        (Axis.LENGTH, Rect(length - trim, trim, trim, width - 2 * trim)),
    )
    return [
        Cut(
            number=number,
            axis=axis,
            fence=trim,
            takes=name,
            gives="edge trim",
            leaves=name,
            dust=strip,
            is_trim=True,
        )
        for number, (axis, strip) in enumerate(strips, start=1)
    ]


def corner(rect: Rect) -> tuple[int, int]:
    """The low corner of a rectangle on the grid, by which what is left over is known."""
    return to_grid(rect.x), to_grid(rect.y)


@dataclass(kw_only=True)
class _Bench:
    """Lays a board's cuts out as things with the steps that cut them, each with a name."""

    kerf: float
    wood: Wood
    rests: Mapping[tuple[int, int], str]
    numbers: Counter[str] = field(default_factory=Counter)

    def work(self, node: Node, rect: Rect, name: str) -> _Work:
        """A thing with the steps that cut it; what lies in the air is passed over."""
        work = _Work(node=node, rect=rect, name=name)
        if node.axis is None:
            return work
        slices = list(_slices(node, rect, self.kerf))
        for k, (part, its, dust) in enumerate(slices):
            is_last = not any(self.wood.is_in(later) for _, later, _ in slices[k + 1 :])
            if not self.wood.is_in(its):
                if dust is not None and self.wood.is_in(dust) and not is_last:
                    work.steps.append(_Step(dust=dust, child=None))
                continue
            child = self.work(part, its, self._named(part, its))
            if dust is not None and (not is_last or self.wood.is_in(dust)):
                work.steps.append(_Step(dust=dust, child=child))
            else:
                work.last = child
            if is_last:
                break
        if not work.steps and work.last is not None:
            # All else of it is air: it is that part already, under the name it has.
            return _renamed(work.last, name)
        return work

    def _named(self, node: Node, rect: Rect) -> str:
        """A piece and what is left over by their names, what is cut further by a number."""
        if node.piece:
            return node.piece
        if node.is_rest:
            return self.rests[corner(rect)]
        kind = "strip" if all(part.axis is None for part in node.parts) else "panel"
        self.numbers[kind] += 1
        return f"{kind} {self.numbers[kind]}"


def _renamed(work: _Work, name: str) -> _Work:
    """A thing under the name of what it was taken for, unless it is a piece or left over."""
    if work.node.axis is not None:
        work.name = name
    return work


def leaves_in_place(root: Node, trim: float, kerf: float) -> Iterator[tuple[Node, Rect]]:
    """Everything that is not cut further, in its place on the board.

    Args:
        root: The board within its trimmed edges.
        trim: Cut off along each edge first.
        kerf: Width of a cut.
    """

    def within(node: Node, rect: Rect) -> Iterator[tuple[Node, Rect]]:
        if node.axis is None:
            yield node, rect
        else:
            for part, its, _ in _slices(node, rect, kerf):
                yield from within(part, its)

    yield from within(root, Rect(trim, trim, root.length, root.width))


def _slices(node: Node, rect: Rect, kerf: float) -> Iterator[tuple[Node, Rect, Rect | None]]:
    """The parts of a node in their places, each with the dust behind it."""
    is_along = node.axis is Axis.LENGTH
    start = to_grid(rect.x if is_along else rect.y)
    whole = to_grid(node.length if is_along else node.width)
    at = 0
    for part in node.parts:
        size = to_grid(part.length if is_along else part.width)
        its = _slice(rect, is_along=is_along, low=start + at, size=size)
        at += size
        blade = min(to_grid(kerf), whole - at)
        dust = _slice(rect, is_along=is_along, low=start + at, size=blade) if whole > at else None
        at += blade
        yield part, its, dust


def _slice(rect: Rect, *, is_along: bool, low: int, size: int) -> Rect:
    """A slice of a rectangle across an axis; ``low`` and ``size`` on the grid."""
    if is_along:
        return Rect(from_grid(low), rect.y, from_grid(size), rect.width)
    return Rect(rect.x, from_grid(low), rect.length, from_grid(size))


@dataclass(kw_only=True)
class _Lines:
    """All cuts of a thing, each with the one that frees what it takes and with its distance."""

    freed_by: list[int | None] = field(default_factory=list)
    fences: list[int | None] = field(default_factory=list)

    def add(self, work: _Work, before: int | None) -> None:
        """Add the cuts of a thing that another cut frees."""
        for number, step in enumerate(work.steps):
            self.freed_by.append(before)
            self.fences.append(_fence_of(work, number))
            before = len(self.fences) - 1
            if step.child is not None:
                self.add(step.child, before)
        if work.last is not None:
            self.add(work.last, before)


def _fence(work: _Work) -> int | None:
    """Distance from the fence for the next cut, on the grid."""
    return _fence_of(work, work.done)


def _fence_of(work: _Work, number: int) -> int | None:
    """The same for any cut; None for an edge that is only made straight."""
    child = work.steps[number].child
    if child is None:
        return None
    return to_grid(child.rect.length if work.node.axis is Axis.LENGTH else child.rect.width)


def _ready(work: _Work) -> Iterator[_Work]:
    """Everything that can be cut now."""
    if not work.is_free:
        return
    if work.done < len(work.steps):
        yield work
    for child in work.children:
        yield from _ready(child)


def _made(work: _Work, number: int, wood: Wood) -> Cut:
    step, axis = work.steps[work.done], work.node.axis
    if axis is None:
        raise AssertionError("only what is parted is cut")
    off = step.dust if step.child is None else step.child.rect
    by_rail = not _runs_along_fence(work, wood)
    work.done += 1
    if step.child is not None:
        step.child.is_free = True
    leaves = work.name
    if work.done == len(work.steps):
        leaves = work.last.name if work.last is not None else ""
        if work.last is not None:
            work.last.is_free = True
    return Cut(
        number=number,
        axis=axis,
        fence=from_grid(to_grid(off.length if axis is Axis.LENGTH else off.width)),
        takes=work.name,
        gives="edge" if step.child is None else step.child.name,
        leaves=leaves,
        dust=step.dust,
        is_trim=step.child is None,
        by_rail=by_rail,
    )


def _runs_along_fence(work: _Work, wood: Wood) -> bool:
    """Whether what comes off next has an edge that can lie against a fence."""
    child = work.steps[work.done].child
    if child is None:
        return False
    rect = child.rect
    if work.node.axis is Axis.LENGTH:
        edge = Rect(rect.x, rect.y, min(_EDGE_DEPTH, rect.length), rect.width)
    else:
        edge = Rect(rect.x, rect.y, rect.length, min(_EDGE_DEPTH, rect.width))
    return wood.share(edge) >= _LEAST_EDGE


def settings(cuts: tuple[Cut, ...]) -> int:
    """How often the fence is set for these cuts, edge trims not counted."""
    fences = [to_grid(cut.fence) for cut in cuts if not cut.is_trim]
    return sum(1 for k, fence in enumerate(fences) if k == 0 or fences[k - 1] != fence)


def least_settings(cuts: tuple[Cut, ...]) -> int:
    """How often it must be set at least, in whatever order these cuts are made."""
    freed: dict[str, int] = {}
    freed_by = []
    for number, cut in enumerate(cuts):
        freed_by.append(freed.get(cut.takes))
        freed[cut.gives] = freed[cut.leaves] = number
    fences = [None if cut.is_trim else to_grid(cut.fence) for cut in cuts]
    return fence_order(freed_by, fences).at_least


def bench(
    name: str, size: tuple[float, float], cuts: tuple[Cut, ...], *, kerf: float, wood: Wood
) -> dict[str, Rect]:
    """Make the cuts with nothing but the list in hand; return what lies on the bench then.

    Each cut takes a thing that lies on the bench, at its low edge by the fence's distance; what
    comes off and what is left go back on the bench under their names. What a cut leaves beyond
    the board's outline is no thing, and a cut that the list passes over had no wood to part.

    Args:
        name: What the board is called.
        size: Its length and width.
        cuts: The list.
        kerf: Width of a cut.
        wood: Where there is wood.

    Returns:
        Where each thing lies on the board, by its name.

    Raises:
        DesignError: a cut takes what is not there, or is set wider than what it cuts.
    """
    on_bench = {name: Rect(0.0, 0.0, *size)}
    for cut in cuts:
        whole = on_bench.pop(cut.takes, None)
        if whole is None:
            raise DesignError(
                f"{name}, cut {cut.number}: {cut.takes} is not on the bench; an earlier cut must "
                "give it",
                part=name,
                value=cut.takes,
                limit=tuple(sorted(on_bench)),
            )
        if cut.is_trim:
            on_bench[cut.leaves] = _trimmed(whole, cut, wood)
            continue
        is_along = cut.axis is Axis.LENGTH
        extent = whole.length if is_along else whole.width
        left = to_grid(extent) - to_grid(cut.fence)
        if left <= 0:
            raise DesignError(
                f"{name}, cut {cut.number}: the fence stands at {cut.fence:g} mm and {cut.takes} "
                f"is {extent:g} mm; it must be larger",
                part=name,
                value=cut.fence,
                limit=extent,
            )
        start = to_grid(whole.x if is_along else whole.y)
        blade = to_grid(cut.dust.x if is_along else cut.dust.y)
        low = blade - to_grid(cut.fence)
        before = _slice(whole, is_along=is_along, low=start, size=low - start)
        if low < start or (low > start and wood.is_in(before)):
            raise DesignError(
                f"{name}, cut {cut.number}: the fence stands at {cut.fence:g} mm and the blade "
                f"{from_grid(blade - start):g} mm from the edge of {cut.takes}; what comes off "
                "must lie at the fence",
                part=name,
                value=cut.fence,
                limit=from_grid(blade - start),
            )
        on_bench[cut.gives] = _slice(whole, is_along=is_along, low=low, size=to_grid(cut.fence))
        end = start + to_grid(extent)
        behind = min(blade + to_grid(kerf), end)
        if cut.leaves and end > behind:
            on_bench[cut.leaves] = _slice(whole, is_along=is_along, low=behind, size=end - behind)
    return {key: rect for key, rect in on_bench.items() if wood.is_in(rect)}


def _trimmed(whole: Rect, cut: Cut, wood: Wood) -> Rect:
    """What is left of a thing when a strip along one of its edges is gone."""
    strip = cut.dust
    is_along = cut.axis is Axis.LENGTH
    low, high = (whole.x, whole.right) if is_along else (whole.y, whole.top)
    start, end = (strip.x, strip.right) if is_along else (strip.y, strip.top)
    before = _slice(whole, is_along=is_along, low=to_grid(low), size=to_grid(start) - to_grid(low))
    if wood.is_in(before):
        high = start
    else:
        low = end
    return _slice(whole, is_along=is_along, low=to_grid(low), size=to_grid(high) - to_grid(low))
