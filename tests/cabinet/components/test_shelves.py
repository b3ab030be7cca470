"""Shelves and their pins."""

from __future__ import annotations

import pytest
from hypothesis import given, settings

from cabinet.checks.contact import contacts
from cabinet.checks.wood import webs
from cabinet.components.carcass import carcass
from cabinet.components.shelves import FramePanel, board_shelf, frame_shelf, pin_rows
from cabinet.design import Design, Unit
from cabinet.errors import SizeError
from cabinet.features import BiscuitSlot, Groove, HoleRow
from cabinet.motion import Motion
from cabinet.stock import birch_plywood, solid_wood, steel_sheet
from tests.strategies import BIRCH, Recipe, recipes, small

STEEL = steel_sheet(1.5)


def with_shelf(*, framed: bool = False) -> Unit:
    """A small unit with one shelf."""
    box = small()
    pins = pin_rows(box)
    shelf = (
        frame_shelf(
            pins.bay(1),
            hole=4,
            stock=BIRCH,
            panel=FramePanel(stock=STEEL, diameter=5, pitch=8),
            name="grille",
        )
        if framed
        else board_shelf(pins.bay(1), hole=4, stock=BIRCH, name="shelf")
    )
    return Design("shelf", (box.component, pins.component, shelf)).resolve()


def test_a_shelf_is_shorter_than_its_bay() -> None:
    """By 2 to 3 in all (common practice, no source), half of it at each end."""
    unit = with_shelf()
    shelf = unit.by_name["shelf"]
    bay = 813 - 2 * 17.6
    assert 2.0 <= bay - shelf.board.length <= 3.0
    assert shelf.box.low.x - 17.6 == pytest.approx(813 - 17.6 - shelf.box.high.x)


def test_a_shelf_lies_on_its_pins() -> None:
    """On top of pins of 5, whose fourth hole lies 96 + 3 * 32 above the base."""
    unit = with_shelf()
    z = 17.6 + 96 + 3 * 32
    assert unit.by_name["shelf"].box.low.z == pytest.approx(z + 2.5)
    pins = [item for item in unit.hardware if item.article.startswith("shelf pin")]
    assert len(pins) == 4
    assert {round(pin.at.z, 6) for pin in pins} == {round(z, 6)}


def test_pin_rows_are_the_published_ones() -> None:
    """5 mm holes, pitch 32, front row 37 from the front edge (published hole system of 32)."""
    unit = with_shelf()
    rows = [f for f in unit.by_name["left side"].board.features if isinstance(f, HoleRow)]
    rows = [row for row in rows if "pin row" in row.name]
    assert {(row.diameter, row.pitch) for row in rows} == {(5.0, 32.0)}
    front = next(row for row in rows if row.name == "front pin row")
    assert front.line.distance == 37.0
    # 10 to 13 deep, never nearer than 5 to the far face (common practice, no source).
    assert all(row.depth is not None and 10 <= row.depth <= 17.6 - 5 for row in rows)


def test_as_many_holes_as_leave_room_at_both_ends() -> None:
    """551.8 clear, less 96 at both ends: 1 + floor(359.8 / 32) = 12 holes."""
    assert len(pin_rows(small()).bay(1).heights) == 12
    assert len(pin_rows(small(), count=5).bay(1).heights) == 5


def test_a_divider_is_not_bored_through_from_both_sides() -> None:
    """Rows of the right bay are half a pitch further back, at the same heights."""
    pins = pin_rows(small(dividers=1))
    one, other = pins.bays
    assert other.front - one.front == pytest.approx(16)
    assert one.back - other.back == pytest.approx(16)
    assert one.heights == other.heights


def test_panel_is_opening_and_grooves_less_play() -> None:
    """Clear opening + 2 * groove depth - 2 * play, with a play of 1 at each side."""
    unit = with_shelf(framed=True)
    panel = unit.by_name["grille panel"]
    ends = [unit.by_name[f"grille {end}"] for end in ("left", "right")]
    rails = [unit.by_name[f"grille {rail}"] for rail in ("front", "back")]
    opening_x = ends[1].box.low.x - ends[0].box.high.x
    opening_y = rails[1].box.low.y - rails[0].box.high.y
    depths = {
        f.depth
        for part in (*ends, *rails)
        for f in part.board.features
        if isinstance(f, Groove) and f.takes == "panel"
    }
    assert depths == {8.0}
    assert panel.board.length == pytest.approx(opening_x + 2 * 8 - 2 * 1)
    assert panel.board.width == pytest.approx(opening_y + 2 * 8 - 2 * 1)


def test_frame_is_as_large_as_a_plain_shelf() -> None:
    """Four members round the same box."""
    plain = with_shelf().by_name["shelf"].box
    framed = with_shelf(framed=True)
    members = [framed.by_name[f"grille {m}"].box for m in ("front", "back", "left", "right")]
    assert min(box.low.x for box in members) == pytest.approx(plain.low.x)
    assert max(box.high.x for box in members) == pytest.approx(plain.high.x)
    assert min(box.low.y for box in members) == pytest.approx(plain.low.y)
    assert max(box.high.y for box in members) == pytest.approx(plain.high.y)


def test_frame_members_of_a_kind_are_one_board() -> None:
    """Both ends are made alike, and both rails: turned, they fit either place."""
    unit = with_shelf(framed=True)
    assert unit.by_name["grille left"].board == unit.by_name["grille right"].board
    assert unit.by_name["grille front"].board == unit.by_name["grille back"].board


def test_biscuits_and_panel_stay_apart() -> None:
    """The slot lies above the groove, with wood between them."""
    unit = with_shelf(framed=True)
    end = unit.by_name["grille left"].board
    (groove,) = (f for f in end.features if isinstance(f, Groove))
    slots = [f for f in end.features if isinstance(f, BiscuitSlot)]
    assert len(slots) == 2
    for slot in slots:
        low, high = slot.box(end.size).low[2], slot.box(end.size).high[2]
        groove_box = groove.box(end.size)
        assert max(low - groove_box.high[2], groove_box.low[2] - high) >= 3.0


def test_a_lipping_takes_its_share_of_the_depth() -> None:
    """The board is narrower by the lipping, and they touch."""
    box = small()
    pins = pin_rows(box)
    shelf = board_shelf(
        pins.bay(1), hole=4, stock=BIRCH, name="shelf", lipping={"front": solid_wood("ash", 8, 690)}
    )
    unit = Design("lipped", (box.component, pins.component, shelf)).resolve()
    lip, board = unit.by_name["shelf front lipping"], unit.by_name["shelf"]
    assert lip.box.high.y == pytest.approx(board.box.low.y)
    assert lip.box.size[1] == pytest.approx(8)
    assert lip.box.size[2] == pytest.approx(17.6)
    plain = with_shelf().by_name["shelf"]
    assert lip.box.size[1] + board.box.size[1] == pytest.approx(plain.box.size[1])


@settings(max_examples=25)
@given(recipe=recipes())
def test_shelves_may_go_to_any_hole(recipe: Recipe) -> None:
    """The move's ends are the lowest and the highest hole; the shelf stays within its bay."""
    unit = recipe.design().resolve()
    box = recipe.box()
    for move in unit.moves:
        if move.motion is Motion.SHELF:
            part = unit.by_name[move.parts[0]]
            assert part.box.low.z + move.low >= box.inner.low.z
            assert part.box.high.z + move.high <= box.inner.high.z
            pitches = (move.high - move.low) / 32
            assert pitches == pytest.approx(round(pitches))


def test_pins_of_another_carcass_stand_in_the_air() -> None:
    """A shelf of a narrower carcass of the same script once passed every check."""
    boxes = [
        carcass(width=width, height=500, depth=260, stock=birch_plywood(18, 17.7))
        for width in (720, 600)
    ]
    own, other = (pin_rows(box) for box in boxes)
    stray = board_shelf(other.bay(1), hole=3, stock=birch_plywood(18, 17.7), name="stray")
    unit = Design("Two", (boxes[0].component, own.component, stray)).resolve()
    found = {finding.parts for finding in contacts(unit)}
    assert found == {("right side", f"pin {row} right, stray") for row in ("front", "back")}


def test_a_panel_without_a_whole_pitch_is_refused() -> None:
    """Holes further apart than the opening would come out as a sheet with an absurd trim."""
    panel = FramePanel(stock=STEEL, diameter=5, pitch=1e6)
    with pytest.raises(SizeError, match="grille: pitch of the panel's holes is 1000000 mm"):
        frame_shelf(pin_rows(small()).bay(1), hole=4, stock=BIRCH, panel=panel, name="grille")


@pytest.mark.parametrize("sheet", [1.0, 1.5, 4.0])
def test_members_are_thick_enough_for_groove_and_biscuits(sheet: float) -> None:
    """Told where it is asked for, with the thickness that would do; at it no web is thin."""

    def framed(thick: float) -> Unit:
        box = small()
        pins = pin_rows(box)
        shelf = frame_shelf(
            pins.bay(1),
            hole=4,
            stock=birch_plywood(nominal=round(thick), measured=thick),
            panel=FramePanel(stock=steel_sheet(sheet), diameter=5, pitch=8),
            name="grille",
        )
        return Design("framed", (box.component, pins.component, shelf)).resolve()

    least = 14.5 + sheet + max(0.5, 2.2 - sheet)
    with pytest.raises(SizeError, match="grille: thickness of the members"):
        framed(least - 0.1)
    assert [f for f in webs(framed(least)) if f.rule == "thin-web"] == []
