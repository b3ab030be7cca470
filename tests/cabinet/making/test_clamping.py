"""Clamps: spacing as a glue maker prints it, shares as an exhaustive search finds them."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cabinet.making.clamping import (
    CAUL,
    FROM_END,
    JOINING,
    LONGEST_CAUL,
    SINGLE,
    ClampRow,
    Sharing,
    along,
    cone,
    face_row,
    line_row,
    places_along,
    shared_out,
)
from cabinet.workshop import Clamp, Workshop

INCH = 25.4
SHOP = (
    Clamp(opening=300.0, count=9, reach=400.0),
    Clamp(opening=1000.0, count=4, reach=120.0),
    Clamp(opening=600.0, count=4, reach=90.0),
)


def row(opening: float, count: int) -> ClampRow:
    return ClampRow(parts=("a", "b"), axis=0, count=count, opening=opening)


def shop(*clamps: tuple[float, int]) -> Workshop:
    return Workshop(clamps=tuple(Clamp(opening=o, count=c) for o, c in clamps))


@given(st.floats(SINGLE + 0.1, 3000.0))
def test_clamps_are_never_further_apart_than_a_glue_maker_says(length: float) -> None:
    # 8 to 12 in apart, 1.5 to 2 in from the ends: a glue maker's guide (blog.eroko.com, read).
    assert 1.5 * INCH <= FROM_END <= 2 * INCH
    apart = (length - 2 * FROM_END) / (along(length) - 1)
    assert apart <= 12 * INCH
    # One clamp fewer would be too few.
    if along(length) > 2:
        assert (length - 2 * FROM_END) / (along(length) - 2) > 300.0 - 1e-6


def test_a_cone_at_45_degrees_covers_twice_its_height_and_the_caul() -> None:
    # Caul 45 wide and 45 high on a board of 17.7, by hand: 45 + 2 * (45 + 17.7) = 170.4.
    assert cone(CAUL + 17.7) == pytest.approx(170.4)
    assert cone(400.0) == 300.0


def test_a_wide_face_gets_cauls_with_a_clamp_at_either_end() -> None:
    # By hand: (1184.6 - 90) / 170.4 = 6.4, so 7 spaces and 8 pairs of cauls.
    made = face_row(("top",), 2, (1184.6, 298.0), (17.7, 17.7))
    assert (made.count, made.cauls, made.caul_length) == (16, 16, 298.0)
    assert made.opening == pytest.approx(2 * 17.7 + 2 * CAUL)
    narrow = face_row(("cleat",), 1, (1171.6, 95.0), (17.7, 17.7))
    assert (narrow.count, narrow.cauls, narrow.caul_length) == (8, 2, 1171.6)


def test_a_long_joint_gets_a_batten_and_a_short_one_pads() -> None:
    assert line_row(("a", "b"), 0, 1164.6, 117.7).opening == pytest.approx(117.7 + 2 * CAUL)
    assert line_row(("a", "b"), 0, 97.3, 117.7).count == 1
    assert line_row(("a", "b"), 0, 97.3, 117.7).cauls == 0


def test_the_shortest_clamp_that_reaches_is_taken() -> None:
    sharing = shared_out([row(287.0, 2), row(613.0, 1)], shop((300.0, 2), (1000.0, 4)))
    assert sharing.suffices
    taken = {use.opening: (use.openings, use.count) for use in sharing.uses}
    assert taken == {287.0: ((300.0,), 2), 613.0: ((1000.0,), 1)}


def test_two_clamps_are_joined_where_none_reaches() -> None:
    sharing = shared_out([row(1217.6, 2)], shop((600.0, 2), (1000.0, 2)))
    assert [use.openings for use in sharing.uses] == [(600.0, 1000.0)]
    assert sum(sharing.uses[0].openings) - JOINING >= 1217.6


def test_too_short_and_too_few_are_told_apart() -> None:
    short = shared_out([row(2317.0, 1)], shop((1000.0, 4)))
    assert short.too_short == 2317.0
    assert not short.suffices
    few = shared_out([row(613.0, 5)], shop((300.0, 6), (1000.0, 4)))
    assert (few.wanted, few.lacking, few.too_short) == (5, 1, None)


def test_the_shortest_clamp_whose_jaws_reach_is_taken() -> None:
    clamps = Workshop(
        clamps=(
            Clamp(opening=300.0, count=6, reach=80.0),
            Clamp(opening=600.0, count=1, reach=120.0),
            Clamp(opening=1000.0, count=1, reach=110.0),
        )
    )

    def deep(reach: float, opening: float = 230.0) -> Sharing:
        place = ClampRow(parts=("a", "b"), axis=0, count=1, opening=opening, reach=reach)
        return shared_out([place], clamps)

    assert [use.openings for use in deep(80.0).uses] == [(300.0,)]
    assert [use.openings for use in deep(87.0).uses] == [(600.0,)]
    # Joined, both must reach; 1600 less what joining takes.
    assert [use.openings for use in deep(110.0, 1500.0).uses] == [(600.0, 1000.0)]
    assert (deep(117.0, 1500.0).too_deep, deep(117.0, 1500.0).too_short) == (117.0, None)
    assert (deep(123.0).too_deep, deep(123.0).lacking) == (123.0, 0)
    assert deep(123.0, 1901.0).too_short == 1901.0
    assert not deep(123.0).suffices


def test_crowned_cauls_take_the_middle_of_a_joint_that_lies_too_deep() -> None:
    plain = line_row(("a", "b"), 0, 487.0, 613.0, reaches=(45.0, 117.0, 45.0), clamps=SHOP)
    assert (plain.count, plain.reach, plain.is_bridged) == (3, 117.0, False)
    cauls = line_row(("a", "b"), 0, 487.0, 613.0, reaches=(45.0, 243.5, 45.0), clamps=SHOP)
    assert (cauls.count, cauls.reach, cauls.is_bridged) == (2, 45.0, True)
    assert (cauls.cauls, cauls.caul_length) == (2, 487.0)
    assert cauls.opening == pytest.approx(613.0 + 2 * CAUL)


def test_only_jaws_of_clamps_that_open_so_far_count() -> None:
    """1500 wide takes two joined, of which the deepest pair reaches 120: both of 1000."""
    middle = line_row(("a", "b"), 0, 487.0, 1500.0, reaches=(45.0, 130.0, 45.0), clamps=SHOP)
    assert middle.is_bridged
    shallow = (*SHOP[:1], *SHOP[2:])
    near = line_row(("a", "b"), 0, 487.0, 900.0, reaches=(45.0, 117.0, 45.0), clamps=shallow)
    assert near.is_bridged
    # Where none opens so far the opening is what is told.
    wide = line_row(("a", "b"), 0, 487.0, 2317.0, reaches=(45.0, 243.5, 45.0), clamps=SHOP)
    assert (wide.count, wide.is_bridged) == (3, False)


def test_cauls_are_no_help_where_the_ends_lie_too_deep_or_the_joint_is_long() -> None:
    ends = line_row(("a", "b"), 0, 487.0, 613.0, reaches=(133.0, 243.5, 45.0), clamps=SHOP)
    assert (ends.count, ends.reach, ends.is_bridged) == (3, 243.5, False)
    reaches = (45.0, 345.0, 345.0, 45.0)
    long = line_row(("a", "b"), 0, LONGEST_CAUL + 1.0, 613.0, reaches=reaches, clamps=SHOP)
    assert (long.count, long.reach, long.is_bridged) == (4, 345.0, False)


@given(st.floats(20.0, 3000.0))
def test_clamps_stand_where_they_are_counted(length: float) -> None:
    places = places_along(length)
    assert len(places) == along(length)
    assert places[0] == pytest.approx(length - places[-1])
    assert len(places) == 1 or places[0] == FROM_END


@settings(max_examples=80)
@given(
    st.lists(st.integers(150, 1500), min_size=1, max_size=4),
    st.lists(
        st.tuples(st.sampled_from([300.0, 600.0, 1000.0]), st.integers(1, 3)),
        min_size=1,
        max_size=3,
        unique_by=lambda clamp: clamp[0],
    ),
)
def test_clamps_suffice_whenever_any_way_of_sharing_them_does(
    openings: list[int], clamps: list[tuple[float, int]]
) -> None:
    sharing = shared_out([row(float(o), 1) for o in openings], shop(*clamps))
    each = [size for size, count in clamps for _ in range(count)]
    assert sharing.suffices == any_way(sorted(openings, reverse=True), each)


def any_way(openings: list[int], clamps: list[float]) -> bool:
    """Whether every opening gets one clamp, or two that are joined, tried blindly."""
    if not openings:
        return True
    first, *rest = openings
    for i, one in enumerate(clamps):
        left = clamps[:i] + clamps[i + 1 :]
        if one >= first and any_way(rest, left):
            return True
    for i, j in product(range(len(clamps)), repeat=2):
        if i < j and clamps[i] + clamps[j] - JOINING >= first:
            left = [c for k, c in enumerate(clamps) if k not in (i, j)]
            if any_way(rest, left):
                return True
    return False
