"""Taking apart: what is in the way, what comes off first, and what is locked."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cabinet.checks.bricks import Bricks
from cabinet.checks.build import FRAME_WAYS
from cabinet.checks.takedown import Puzzle, TakeDown, in_the_way
from cabinet.frame import Side

Corners = tuple[tuple[float, float, float], tuple[float, float, float]]


def thing(name: str, *boxes: Corners) -> Bricks:
    """Something made of boxes, each told by its low corner and its size."""
    made = np.array(
        [[low, tuple(a + b for a, b in zip(low, size, strict=True))] for low, size in boxes]
    )
    return Bricks((name,), made.astype(float), np.zeros(len(boxes), dtype=np.intp))


def solved(*things: Bricks, fixed: frozenset[int] = frozenset()) -> TakeDown:
    """How they come apart."""
    return Puzzle(things, FRAME_WAYS, lambda _: (), fixed).solve()


# A channel open above and at both ends of Y, and a bar in it.
CHANNEL = thing(
    "channel",
    ((0, 0, 0), (31, 97, 5)),
    ((0, 0, 5), (11, 97, 13)),
    ((18, 0, 5), (13, 97, 13)),
)
BAR = thing("bar", ((11, 0, 5), (7, 97, 23)))


def test_a_bar_leaves_its_channel_by_three_sides() -> None:
    """Up, to the front and to the back; the walls and the floor stop the others."""
    assert in_the_way(BAR, CHANNEL) == {Side.LEFT, Side.RIGHT, Side.BOTTOM}
    assert in_the_way(CHANNEL, BAR) == {Side.LEFT, Side.RIGHT, Side.TOP}


@settings(max_examples=100)
@given(
    low=st.tuples(*[st.integers(-30, 30)] * 3),
    size=st.tuples(*[st.integers(1, 30)] * 3),
)
def test_blocking_is_mutual_and_follows_from_shadows(
    low: tuple[int, int, int], size: tuple[int, int, int]
) -> None:
    """If one stops the other towards a side, the other stops it the other way."""
    one = thing("one", ((0, 0, 0), (17, 23, 29)))
    other = thing("other", (low, size))
    there, back = in_the_way(one, other), in_the_way(other, one)
    assert there == {side.opposite for side in back}
    # By hand: it stands in the way if it laps across and lies ahead.
    extents = (17, 23, 29)
    laps = [min(extents[a], low[a] + size[a]) - max(0, low[a]) > 0 for a in range(3)]
    if not all(laps):
        for side in Side:
            beside = [a for a in range(3) if a != side.axis]
            is_ahead = (
                low[side.axis] >= extents[side.axis]
                if side.sign > 0
                else low[side.axis] + size[side.axis] <= 0
            )
            assert (side in there) == (all(laps[a] for a in beside) and is_ahead)


def test_what_shares_volume_is_left_to_another_rule() -> None:
    """A clash is not a lock."""
    assert in_the_way(BAR, thing("clash", ((12, 10, 10), (3, 3, 3)))) == frozenset()


def test_one_after_the_other() -> None:
    """A lid over the channel goes before the bar in it; the travel clears what stays."""
    lid = thing(
        "lid", ((0, 0, 28), (31, 97, 7)), ((0, -7, 0), (31, 7, 35)), ((0, 97, 0), (31, 7, 35))
    )
    down = solved(CHANNEL, BAR, lid)
    assert [r.things for r in down.removals] == [(2,), (1,)]
    assert [r.side for r in down.removals] == [Side.TOP, Side.TOP]
    assert [r.travel for r in down.removals] == pytest.approx([28.0, 13.0])
    assert down.kept == (0,)
    assert not down.locked


def test_a_group_goes_where_no_single_one_can() -> None:
    """Two hooked into each other, within a channel, go up as one; then nothing holds them."""
    hook = thing("hook", ((11, 31, 5), (7, 11, 23)), ((11, 31, 28), (7, 31, 9)))
    eye = thing("eye", ((11, 51, 5), (7, 11, 23)), ((11, 42, 5), (7, 9, 11)))
    stops = thing(
        "stops",
        ((0, 20, 5), (31, 11, 50)),
        ((0, 62, 5), (31, 11, 50)),
        ((0, 31, 5), (11, 31, 50)),
        ((18, 31, 5), (13, 31, 50)),
        ((0, 20, 0), (31, 53, 5)),
    )
    down = solved(stops, hook, eye)
    assert not down.locked
    assert {i for r in down.removals for i in r.things} | set(down.kept) == {0, 1, 2}


def _with_pin_and_hole(name: str, body: Corners, hole: Corners, pin: Corners | None) -> Bricks:
    """A block with a square hole, as bricks round the hole, and perhaps a pin."""
    low, size = list(body[0]), list(body[1])
    bricks: list[Corners] = [] if pin is None else [pin]
    for axis in range(3):
        near = max(hole[0][axis], low[axis])
        far = min(hole[0][axis] + hole[1][axis], low[axis] + size[axis])
        for start, end in ((low[axis], near), (far, low[axis] + size[axis])):
            if end > start:
                corner, extent = list(low), list(size)
                corner[axis], extent[axis] = start, end - start
                bricks.append(
                    ((corner[0], corner[1], corner[2]), (extent[0], extent[1], extent[2]))
                )
        low[axis], size[axis] = near, far - near
    return thing(name, *bricks)


# Three blocks, each with a pin in the next one: along Y, along Z, along X.
BLOCKS: tuple[Corners, ...] = (
    ((0, 20, 0), (10, 40, 50)),
    ((0, 0, 10), (50, 20, 40)),
    ((10, 0, 0), (40, 60, 10)),
)
PINS: tuple[Corners, ...] = (
    ((3, 14, 20), (4, 6, 9)),
    ((20, 7, 4), (9, 4, 6)),
    ((4, 35, 3), (6, 9, 4)),
)


def _ring(*, last_pin: bool) -> tuple[Bricks, ...]:
    pins = [PINS[0], PINS[1], PINS[2] if last_pin else None]
    return tuple(
        _with_pin_and_hole(name, BLOCKS[i], PINS[(i + 2) % 3], pins[i])
        for i, name in enumerate(("one", "two", "three"))
    )


def test_a_ring_of_three_is_locked() -> None:
    """Each holds the next along another axis: none goes, alone or with another."""
    assert solved(*_ring(last_pin=True)).locked == (0, 1, 2)


def test_the_same_ring_with_one_pin_less_comes_apart() -> None:
    """What is just inside the limit: two pins hold three blocks but lock none."""
    down = solved(*_ring(last_pin=False))
    assert not down.locked
    assert len(down.removals) == 2


def test_what_is_fixed_stays() -> None:
    """The bar goes, though the channel could; both fixed, nothing is asked."""
    assert solved(CHANNEL, BAR, fixed=frozenset({0})).removals[0].things == (1,)
    assert solved(CHANNEL, BAR, fixed=frozenset({1})).removals[0].things == (0,)
    assert solved(CHANNEL, BAR, fixed=frozenset({0, 1})).removals == ()
