"""Planted flaws: one leftover, and the part is shifted, turned, flipped or refused."""

from __future__ import annotations

from dataclasses import replace

import pytest

from cabinet.board import At, BoardBox, Surface
from cabinet.design import Unit
from cabinet.features import CutOut, Groove, HoleRow
from cabinet.frame import Side
from cabinet.making.blanks import Blank, blanks
from cabinet.making.guillotine import to_grid
from cabinet.making.lie import Fate, Place, Way, laid_box, laid_size, verdicts, ways
from cabinet.making.outline import bounds, rectangle
from cabinet.making.place import Cell, Finder, Found
from cabinet.making.rack import Flaw, FlawFace, Leftover, flaw
from cabinet.stock import Grain, Stock, steel_sheet
from tests.cabinet.making.racks import BIRCH, panel, unit_of

KERF = 2.2
# Eleven deep from face A, along a line 37 from the near edge.
PINS = HoleRow(
    name="front pin row",
    surface=Surface.A,
    first=At(Surface.START, 61.0),
    line=At(Surface.LOW, 37.0),
    count=9,
    pitch=32.0,
    diameter=5.0,
    depth=11.0,
)


def only_blank(unit: Unit) -> Blank:
    (blank,) = blanks(unit)
    return blank


def board_with(
    *flaws: Flaw, length: float = 613.0, width: float = 287.0, stock: Stock = BIRCH
) -> Leftover:
    return Leftover(
        name="old lid", stock=stock, outline=rectangle(length, width), flaws=flaws
    ).laid()


def found_on(blank: Blank, board: Leftover, *, with_patch: bool = False) -> Found | None:
    around = bounds(board.outline)
    cell = Cell(0, 0, to_grid(around.length), to_grid(around.width))
    return Finder(board, to_grid(KERF)).place(blank, cell, with_patch=with_patch)


def fate(blank: Blank, board: Leftover) -> Fate:
    """What becomes of the one flaw below a blank in the corner."""
    (verdict,) = verdicts(blank, Place(0.0, 0.0), board)
    return verdict.fate


def stain(face: str) -> Flaw:
    return flaw("stain", face, at=(203.0, 91.0), length=41.0, width=33.0)


def test_a_stain_on_the_hidden_face_is_allowed_where_the_part_lies() -> None:
    blank = only_blank(unit_of(panel(shows=(Side.TOP,))))
    found = found_on(blank, board_with(stain("face B")))
    assert found is not None
    assert found.place == Place(0.0, 0.0, Way())
    assert [v.fate for v in found.verdicts] == [Fate.HIDDEN]


def test_the_same_stain_on_the_showing_face_flips_the_part() -> None:
    blank = only_blank(unit_of(panel(shows=(Side.TOP,))))
    board = board_with(stain("face A"))
    assert fate(blank, board) is not Fate.HIDDEN
    found = found_on(blank, board)
    assert found is not None
    assert found.place.way == Way(is_flipped=True)
    assert [v.fate for v in found.verdicts] == [Fate.HIDDEN]


@pytest.mark.parametrize("face", ["face A", "face B"])
def test_a_part_that_shows_both_faces_has_no_place_for_it(face: str) -> None:
    blank = only_blank(unit_of(panel(shows=(Side.TOP, Side.BOTTOM))))
    assert found_on(blank, board_with(stain(face))) is None


@pytest.mark.parametrize(("depth", "is_good"), [(3.6, True), (3.8, False)])
def test_a_groove_under_a_pin_row_leaves_three_millimetres_or_is_refused(
    depth: float, *, is_good: bool
) -> None:
    # 17.7 less 11 for the pins leaves 6.7; 3 must stay.
    blank = only_blank(unit_of(panel(features=(PINS,))))
    board = board_with(flaw("groove", "face B", at=(100, 33), length=90, width=8, depth=depth))
    assert (fate(blank, board) is Fate.HIDDEN) is is_good


def test_a_groove_is_refused_within_five_millimetres_of_a_cut_on_its_own_face() -> None:
    cut = Groove(
        name="housing",
        surface=Surface.B,
        near=At(Surface.LOW, 120.0),
        width=17.9,
        depth=6.0,
    )
    blank = only_blank(unit_of(panel(features=(cut,))))
    for gap, is_good in ((5.1, True), (4.9, False)):
        old = flaw("groove", "face B", at=(0, 137.9 + gap), length=613, width=9, depth=3)
        assert (fate(blank, board_with(old)) is Fate.HIDDEN) is is_good


def test_a_wider_groove_swallows_the_old_one() -> None:
    cut = Groove(
        name="housing", surface=Surface.B, near=At(Surface.LOW, 120.0), width=17.9, depth=6.0
    )
    blank = only_blank(unit_of(panel(shows=(Side.TOP, Side.BOTTOM), features=(cut,))))
    old = flaw("groove", "face B", at=(0, 123), length=613, width=9, depth=5.5)
    assert fate(blank, board_with(old)) is Fate.GONE
    deeper = flaw("groove", "face B", at=(0, 123), length=613, width=9, depth=6.5)
    assert fate(blank, board_with(deeper)) is not Fate.GONE


def test_the_part_is_shifted_past_a_hole() -> None:
    blank = only_blank(unit_of(panel()))
    hole = flaw("hole", "through", at=(0, 143), length=23, width=19)
    found = found_on(blank, board_with(hole, length=700.0))
    assert found is not None
    assert found.place.way == Way()
    assert 23.0 <= found.place.x <= 700.0 - 613.0
    assert found.verdicts == ()


def test_a_strip_before_the_part_is_never_narrower_than_the_kerf() -> None:
    blank = only_blank(unit_of(panel(shows=(Side.TOP, Side.BOTTOM))))
    chip = flaw("breakout", "face A", at=(0, 143), length=1.1, width=19, depth=3)
    other = replace(chip, face=FlawFace.B)
    far = [replace(each, outline=rectangle(5.1, 19, (694.9, 143))) for each in (chip, other)]
    found = found_on(blank, board_with(chip, other, *far, length=700.0))
    assert found is not None
    assert KERF < found.place.x <= KERF + 0.01


def test_the_part_is_turned_end_for_end_so_that_its_pins_meet_sound_wood() -> None:
    # The groove lies across the start, where the pins are; face A shows, so flipping fails.
    blank = only_blank(unit_of(panel(features=(PINS,))))
    board = board_with(flaw("groove", "face B", at=(70, 11), length=18, width=201, depth=5.5))
    assert fate(blank, board) is Fate.FORBIDDEN
    found = found_on(blank, board)
    assert found is not None
    assert found.place.way == Way(is_reversed=True)


def test_metal_is_turned_by_a_quarter_and_wood_is_not() -> None:
    metal = steel_sheet(1.5)
    for stock, grain, fits in ((metal, Grain.NONE, True), (BIRCH, Grain.LENGTH, False)):
        blank = only_blank(unit_of(panel(stock=stock, grain=grain)))
        found = found_on(blank, board_with(length=287.0, width=613.0, stock=stock))
        assert (found is not None) is fits
        if found is not None:
            assert found.place.way.is_turned


def test_grain_across_the_part_lies_along_the_board() -> None:
    blank = only_blank(unit_of(panel(grain=Grain.WIDTH)))
    assert all(way.is_turned for way in ways(blank))
    assert laid_size(blank, Way(is_turned=True)) == (287.0, 613.0)


def test_a_hole_ends_in_a_cut_out() -> None:
    opening = CutOut(
        name="air",
        centre=(At(Surface.START, 311.0), At(Surface.LOW, 143.0)),
        length=120.0,
        width=60.0,
        corner_radius=30.0,
    )
    blank = only_blank(unit_of(panel(shows=(Side.TOP, Side.BOTTOM), features=(opening,))))
    hole = flaw("hole", "through", at=(290, 130), length=41, width=27)
    assert fate(blank, board_with(hole)) is Fate.GONE
    off = flaw("hole", "through", at=(250, 130), length=41, width=27)
    assert fate(blank, board_with(off)) is Fate.FORBIDDEN


def test_damage_in_the_oversize_is_cut_away_and_damage_on_the_glue_face_is_not() -> None:
    below, above = blanks(unit_of(panel(layers=2, shows=())))
    assert (below.length, below.width) == (621.0, 295.0)
    edge = flaw("hole", "through", at=(100, 0), length=30, width=2.9)
    board = board_with(edge, length=621.0, width=295.0)
    assert fate(below, board) is Fate.GONE
    for blank, face, is_good in (
        (below, "face B", True),
        (below, "face A", False),
        (above, "face A", True),
        (above, "face B", False),
    ):
        board = board_with(stain(face), length=621.0, width=295.0)
        assert (fate(blank, board) is Fate.HIDDEN) is is_good


@pytest.mark.parametrize(
    ("length", "depth", "is_good"),
    [(600, 5.8, True), (600, 6.0, False), (90, 8.8, True), (90, 8.9, False)],
)
def test_depth_is_limited_to_half_and_for_long_flaws_to_a_third(
    length: float, depth: float, *, is_good: bool
) -> None:
    blank = only_blank(unit_of(panel()))
    old = flaw("groove", "face B", at=(5, 100), length=length, width=9, depth=depth)
    assert (fate(blank, board_with(old)) is Fate.HIDDEN) is is_good


def test_flaws_on_both_faces_add_up() -> None:
    blank = only_blank(unit_of(panel(shows=())))
    one = flaw("groove", "face B", at=(100, 100), length=60, width=40, depth=5)
    for depth, is_good in ((3.8, True), (3.9, False)):
        other = flaw("hole", "face A", at=(120, 110), length=20, width=20, depth=depth)
        told = verdicts(blank, Place(0.0, 0.0), board_with(one, other))
        assert all((v.fate is Fate.HIDDEN) is is_good for v in told)


@pytest.mark.parametrize(("gap", "is_good"), [(5.0, True), (4.9, False)])
def test_an_edge_that_shows_keeps_five_millimetres(gap: float, *, is_good: bool) -> None:
    blank = only_blank(unit_of(panel(shows=(Side.FRONT,))))
    old = flaw("breakout", "face B", at=(100, gap), length=30, width=10, depth=3)
    assert (fate(blank, board_with(old)) is Fate.HIDDEN) is is_good


def test_a_flaw_may_run_out_at_an_edge_that_nobody_sees_and_nothing_joins() -> None:
    blank = only_blank(unit_of(panel(shows=(Side.TOP,))))
    old = flaw("groove", "face B", at=(0, 40), length=613, width=8, depth=5)
    assert fate(blank, board_with(old)) is Fate.HIDDEN


# A box near the start and the near edge of a panel 613 x 287 x 17.7, nearer to face B.
BOX = BoardBox(low=(11.0, 23.0, 2.0), high=(47.0, 91.0, 5.0))


@pytest.mark.parametrize(
    ("way", "low", "high"),
    [
        (Way(), (11.0, 23.0, 2.0), (47.0, 91.0, 5.0)),
        (Way(is_reversed=True), (566.0, 196.0, 2.0), (602.0, 264.0, 5.0)),
        (Way(is_flipped=True), (11.0, 196.0, 12.7), (47.0, 264.0, 15.7)),
        (Way(is_flipped=True, is_reversed=True), (566.0, 23.0, 12.7), (602.0, 91.0, 15.7)),
        # Turned by a quarter counter-clockwise: the near edge lies at the right.
        (Way(is_turned=True), (196.0, 11.0, 2.0), (264.0, 47.0, 5.0)),
        (Way(is_turned=True, is_reversed=True), (23.0, 566.0, 2.0), (91.0, 602.0, 5.0)),
        (Way(is_turned=True, is_flipped=True), (23.0, 11.0, 12.7), (91.0, 47.0, 15.7)),
        (Way(True, True, True), (196.0, 566.0, 12.7), (264.0, 602.0, 15.7)),
    ],
)
def test_how_a_box_of_the_part_lies_on_the_board(
    way: Way, low: tuple[float, float, float], high: tuple[float, float, float]
) -> None:
    laid = laid_box(only_blank(unit_of(panel())), way, BOX)
    assert laid.low == pytest.approx(low)
    assert laid.high == pytest.approx(high)


def test_a_flipped_part_meets_a_groove_where_its_pins_then_are() -> None:
    # Pins 37 from the near edge, bored from the hidden face; flipped, they are 250 from it.
    pins = replace(PINS, surface=Surface.B)
    blank = only_blank(unit_of(panel(features=(pins,))))
    board = board_with(flaw("groove", "face A", at=(100, 246), length=90, width=8, depth=5))
    place = Place(0.0, 0.0, Way(is_flipped=True))
    assert [v.fate for v in verdicts(blank, place, board)] == [Fate.FORBIDDEN]
    found = found_on(blank, board)
    assert found is not None
    assert found.place.way == Way(is_flipped=True, is_reversed=True)


def test_a_patch_is_found_only_if_it_is_asked_for() -> None:
    blank = only_blank(unit_of(panel(shows=(Side.TOP, Side.BOTTOM))))
    board = board_with(stain("face A"))
    assert found_on(blank, board) is None
    found = found_on(blank, board, with_patch=True)
    assert found is not None
    assert [v.fate for v in found.verdicts] == [Fate.PATCH]


def test_no_patch_goes_where_something_is_cut_or_through_the_board() -> None:
    blank = only_blank(unit_of(panel(shows=(Side.TOP, Side.BOTTOM), features=(PINS,))))
    for old in (
        flaw("hole", "face A", at=(100, 30), length=20, width=20, depth=4),
        flaw("hole", "through", at=(300, 143), length=20, width=20),
    ):
        assert fate(blank, board_with(old)) is Fate.FORBIDDEN
