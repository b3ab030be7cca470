"""Joints: one nominal size and one clearance put matching features on both boards."""

from __future__ import annotations

import pytest
from hypothesis import given, settings

from cabinet.components.shelves import pin_rows
from cabinet.design import Design, Unit
from cabinet.errors import CabinetError, DesignError, SizeError
from cabinet.features import Biscuit, BiscuitSlot, CutOut, Groove, Hole, HoleRow, Notch, Rebate
from cabinet.frame import BoardPoint, Side, UnitBox, UnitPoint
from cabinet.hardware import Screw
from cabinet.joint import (
    Biscuits,
    Butt,
    Crossing,
    Gap,
    Housing,
    Joint,
    Opening,
    PinRows,
    Screwed,
    Touch,
    Track,
    datum_side,
)
from cabinet.part import Part, board_part
from cabinet.stock import Stock, birch_plywood
from tests.strategies import BIRCH, lengths, small


def a_board(
    name: str,
    low: tuple[float, float, float],
    length: tuple[Side, float],
    width: tuple[Side, float],
    stock: Stock = BIRCH,
) -> Part:
    """A board in its place; fence and stop at the ends from which it runs."""
    return board_part(
        name=name,
        role=name,
        stock=stock,
        box_low=UnitPoint(*low),
        length=length,
        width=width,
        fence=width[0].opposite,
        stop=length[0].opposite,
    )


def upright() -> Part:
    """A side of 613 by 287 at the left, its right face at x = 17.6."""
    return a_board("side", (0, 0, 0), (Side.TOP, 613.0), (Side.BACK, 287.0))


def level(measured: float = 11.8, *, into: float = 6.0, front: float = 0.0) -> Part:
    """A shelf let into the side by 6, its underside at z = 211."""
    return a_board(
        "shelf",
        (17.6 - into, front, 211.0),
        (Side.RIGHT, 413.0),
        (Side.BACK, 287.0 - front),
        birch_plywood(12, measured),
    )


def in_unit(part: Part, feature: Groove | Rebate | Notch | BiscuitSlot | Hole | CutOut) -> UnitBox:
    """What a feature takes away, as a box in the unit."""
    box = feature.box(part.board.size)
    one = part.placement.board_to_unit(BoardPoint(*box.low))
    two = part.placement.board_to_unit(BoardPoint(*box.high))
    pairs = [sorted(pair) for pair in zip(one, two, strict=True)]
    return UnitBox(
        low=UnitPoint(*(pair[0] for pair in pairs)), high=UnitPoint(*(pair[1] for pair in pairs))
    )


def by_name(*made: Part) -> dict[str, Part]:
    """Parts as the design hands them to a joint."""
    return {part.name: part for part in made}


@pytest.mark.parametrize("measured", [11.3, 11.8, 12.1])
def test_a_groove_follows_the_measured_thickness(measured: float) -> None:
    """Width: the board that goes in and the play; half of the play on each side."""
    parts = by_name(upright(), level(measured))
    ((name, groove),) = Housing(board="shelf", into="side", play=0.2).features(parts)
    assert isinstance(groove, Groove)
    assert name == "side"
    assert groove.width == pytest.approx(measured + 0.2)
    assert groove.depth == 6.0
    cut = in_unit(parts["side"], groove)
    assert cut.low.z == pytest.approx(211.0 - 0.1)
    assert cut.high.z == pytest.approx(211.0 + measured + 0.1)


@given(measured=lengths(11.1, 12.2), into=lengths(2, 16), front=lengths(0, 150))
def test_both_boards_read_one_size(measured: float, into: float, front: float) -> None:
    """The cut in the side and the end of the shelf agree, whatever the numbers are."""
    side, shelf = upright(), level(measured, into=into, front=front)
    parts = by_name(side, shelf)
    joint = Housing(board="shelf", into="side", play=0.3, deep=0.4, endplay=0.5)
    ((_, groove),) = joint.features(parts)
    assert isinstance(groove, Groove)
    cut = in_unit(side, groove)
    assert cut.low.x == pytest.approx(shelf.box.low.x - 0.4)
    assert cut.high.x == pytest.approx(17.6)
    assert cut.high.y == pytest.approx(287.0)
    assert cut.low.y == pytest.approx(max(front - 0.5, 0.0) if front else 0.0)
    assert set(joint.proofs(parts)) == {
        Gap(inner="shelf", outer="side", side=Side.TOP, gap=0.15),
        Gap(inner="shelf", outer="side", side=Side.BOTTOM, gap=0.15),
        Gap(inner="shelf", outer="side", side=Side.LEFT, gap=0.4),
    }


def test_flush_with_an_end_it_is_a_rebate() -> None:
    """A top at the side's end: a rebate as wide as the top is thick, as deep as it is let in."""
    top = a_board("top", (11.6, 0, 595.4), (Side.RIGHT, 413.0), (Side.BACK, 287.0))
    parts = by_name(upright(), top)
    joint = Housing(board="top", into="side", play=0.0)
    ((_, rebate),) = joint.features(parts)
    assert isinstance(rebate, Rebate)
    assert (rebate.width, rebate.depth) == pytest.approx((17.6, 6.0))
    assert parts["side"].side(rebate.edge) is Side.TOP
    assert parts["side"].side(rebate.face) is Side.RIGHT
    assert [p for p in joint.proofs(parts) if isinstance(p, Gap) and p.side is Side.TOP] == []


def test_a_stopped_housing() -> None:
    """A shelf that begins 41 behind the front: the groove stops there, told from the fence."""
    side = upright()
    ((_, groove),) = Housing(board="shelf", into="side").features(by_name(side, level(front=41.0)))
    assert isinstance(groove, Groove)
    ends = [at for at in (groove.start, groove.end) if at is not None]
    assert len(ends) == 1
    assert side.side(ends[0].datum) is datum_side(side, 1)
    assert ends[0].coordinate(side.board.size) == pytest.approx(41.0)


def test_a_notch_for_what_is_laid_in() -> None:
    """A rail of 17.6 by 91 across the back of a side."""
    side = upright()
    rail = a_board("rail", (-50, 287 - 17.6, 401), (Side.RIGHT, 413.0), (Side.TOP, 91.0))
    ((_, notch),) = Crossing(board="rail", into="side", edge=Side.BACK, play=0.3).features(
        by_name(side, rail)
    )
    assert isinstance(notch, Notch)
    assert (notch.length, notch.depth) == pytest.approx((91.3, 17.6))
    cut = in_unit(side, notch)
    assert (cut.low.z, cut.high.z) == pytest.approx((400.85, 492.15))


def test_biscuits_lie_in_both_slots() -> None:
    """Each biscuit's middle is the middle of a slot in both boards, at the same height."""
    side = upright()
    rail = a_board("rail", (17.6, 31, 401), (Side.RIGHT, 413.0), (Side.TOP, 187.0))
    parts = by_name(side, rail)
    joint = Biscuits(
        one="rail", other="side", biscuit=Biscuit.NO_20, count=2, level=Side.FRONT, height=8.0
    )
    slots = [(parts[name], feature) for name, feature in joint.features(parts)]
    assert len(slots) == 4
    for piece in joint.hardware(parts):
        boxes = [
            in_unit(part, slot)
            for part, slot in slots
            if isinstance(slot, BiscuitSlot)
            and in_unit(part, slot).low.z < piece.at.z < in_unit(part, slot).high.z
        ]
        assert len(boxes) == 2
        for box in boxes:
            assert (box.low.z + box.high.z) / 2 == pytest.approx(piece.at.z)
            assert (box.low.y + box.high.y) / 2 == pytest.approx(31 + 8.0)
        assert {round(box.low.x, 6) for box in boxes} == {17.6, 5.6}
        assert piece.at.x == pytest.approx(17.6)
    # Spread evenly, set out to tenths from both ends: a quarter of 187 is 46.75.
    assert [p.at.z - 401 for p in joint.hardware(parts)] == pytest.approx([46.7, 187 - 46.7])


SCREW = Screw(diameter=5.0, length=45.0, head_diameter=10.0)


def screwed() -> tuple[dict[str, Part], Screwed]:
    """A cleat behind a rail, three screws."""
    rail = a_board("rail", (0, 0, 0), (Side.RIGHT, 413.0), (Side.TOP, 91.0))
    cleat = board_part(
        name="cleat",
        role="cleat",
        stock=BIRCH,
        box_low=UnitPoint(11, 17.6, 5),
        length=(Side.RIGHT, 387.0),
        width=(Side.TOP, 81.0),
        layers=2,
        fence=Side.BOTTOM,
        stop=Side.LEFT,
    )
    return by_name(rail, cleat), Screwed(
        through="rail",
        into="cleat",
        screw=SCREW,
        count=3,
        inset=61.0,
        offset=27.0,
        offset_from=Side.TOP,
    )


def test_screws_have_a_hole_in_each_board_on_one_axis() -> None:
    """Clearance through one, pilot in the other, both where the screw is."""
    parts, joint = screwed()
    rows = dict(joint.features(parts))
    clear, pilot = rows["rail"], rows["cleat"]
    assert isinstance(clear, HoleRow)
    assert isinstance(pilot, HoleRow)
    assert (clear.diameter, clear.depth, clear.countersink) == (5.5, None, 10.0)
    # 45 through 17.6 and one more before the tip.
    assert (pilot.diameter, pilot.depth) == pytest.approx((3.5, 45 - 17.6 + 1))
    for name, row in (("rail", clear), ("cleat", pilot)):
        places = []
        for hole in row.holes:
            box = in_unit(parts[name], hole)
            places.append(((box.low.x + box.high.x) / 2, (box.low.z + box.high.z) / 2))
        screws = [(item.at.x, item.at.z) for item in joint.hardware(parts)]
        assert sorted(places) == [pytest.approx(place) for place in sorted(screws)]
    # The joint runs from x = 11 to 398 and its top edge lies at 86.
    assert [item.at.x for item in joint.hardware(parts)] == pytest.approx([72, 204.5, 337])
    assert [item.at.z for item in joint.hardware(parts)] == pytest.approx([86 - 27.0] * 3)


def test_one_screw_stands_in_the_middle() -> None:
    """A row of one is a hole."""
    parts, joint = screwed()
    single = Screwed(through="rail", into="cleat", screw=SCREW, count=1, inset=61.0)
    assert all(isinstance(feature, Hole) for _, feature in single.features(parts))
    (item,) = single.hardware(parts)
    assert (item.at.x, item.at.z) == pytest.approx((204.5, 45.5))
    assert joint.title == "3 screws 5 × 45, glued"


def test_an_offset_needs_its_side() -> None:
    """27 from where, it must say."""
    with pytest.raises(DesignError):
        Screwed(through="a", into="b", screw=SCREW, count=2, inset=61.0, offset=27.0)


def rows_of(unit: Unit, name: str) -> list[tuple[float, float]]:
    """Places of all pin holes of a board in the unit: Y and Z."""
    part = unit.by_name[name]
    found = []
    for feature in part.board.features:
        if isinstance(feature, HoleRow) and "pin row" in feature.name:
            for hole in feature.holes:
                box = in_unit(part, hole)
                middle = (box.low.y + box.high.y) / 2, (box.low.z + box.high.z) / 2
                found.append((round(middle[0], 6), round(middle[1], 6)))
    return sorted(found)


def test_facing_rows_are_level() -> None:
    """Left and right side of one bay have their holes at the same heights and depths."""
    box = small()
    unit = Design("rows", (box.component, pin_rows(box).component)).resolve()
    left, right = rows_of(unit, "left side"), rows_of(unit, "right side")
    assert left == right
    assert len(left) == 24


def test_rows_of_a_divider_face_both_bays() -> None:
    """Its two faces have the rows of both neighbours."""
    box = small(dividers=1)
    unit = Design("rows", (box.component, pin_rows(box).component)).resolve()
    both = sorted(rows_of(unit, "left side") + rows_of(unit, "right side"))
    assert rows_of(unit, "divider") == both


@pytest.mark.parametrize("datum", [Side.BOTTOM, Side.TOP])
def test_rows_from_either_end_lie_alike(datum: Side) -> None:
    """Told from the top, the first hole is the highest; the holes are the same."""
    other = a_board("other", (430.6, 0, 0), (Side.TOP, 613.0), (Side.FRONT, 287.0))
    parts = by_name(upright(), other)
    rows = PinRows(
        left="side",
        right="other",
        lines=(("front", 37.0),),
        first=113.6,
        count=5,
        pitch=32.0,
        diameter=5.0,
        depth=12.0,
        datum=datum,
    )
    for name, row in rows.features(parts):
        assert isinstance(row, HoleRow)
        part = parts[name]
        assert part.side(row.first.datum) is datum
        heights = sorted(round(in_unit(part, hole).low.z + 2.5, 6) for hole in row.holes)
        assert heights == [113.6, 145.6, 177.6, 209.6, 241.6]
        assert part.side(row.surface) is (Side.RIGHT if name == "side" else Side.LEFT)


def test_an_opening_is_the_same_in_boards_that_lie_differently() -> None:
    """Top with its length to the right, covering with its length to the back."""
    top = a_board("top", (0, 0, 0), (Side.RIGHT, 613.0), (Side.FRONT, 287.0))
    mat = a_board("mat", (0, 0, 17.6), (Side.BACK, 287.0), (Side.RIGHT, 613.0))
    parts = by_name(top, mat)
    joint = Opening(
        name="air",
        through=("top", "mat"),
        centre=UnitPoint(211, 91, 0),
        size=(121.0, 34.0),
        corner_radius=17.0,
        told_from=(Side.LEFT, Side.BACK),
    )
    boxes = []
    for name, cut in joint.features(parts):
        assert isinstance(cut, CutOut)
        boxes.append(in_unit(parts[name], cut))
        assert {parts[name].side(at.datum) for at in cut.centre} == {Side.LEFT, Side.BACK}
    for box in boxes:
        assert (box.low.x, box.high.x) == pytest.approx((150.5, 271.5))
        assert (box.low.y, box.high.y) == pytest.approx((74.0, 108.0))


@settings(max_examples=30)
@given(measured=lengths(11.3, 12.1), play=lengths(0.5, 1.5))
def test_tongue_and_track_agree(measured: float, play: float) -> None:
    """The tongue lies in the middle of the groove, half the play in front and behind."""
    base = a_board("base", (0, 0, 0), (Side.RIGHT, 613.0), (Side.BACK, 287.0))
    door = a_board(
        "door",
        (31, 17, 17.6 - 3.0),
        (Side.TOP, 413.0),
        (Side.LEFT, 313.0),
        birch_plywood(12, measured),
    )
    joint = Track(
        door="door",
        board="base",
        side=Side.BOTTOM,
        tongue=7.0,
        tongue_length=3.8,
        depth=11.0,
        play=play,
        bar=8.0,
    )
    parts = by_name(base, door)
    cuts = dict(joint.features(parts))
    rebate, groove = cuts["door"], cuts["base"]
    assert isinstance(rebate, Rebate)
    assert isinstance(groove, Groove)
    taken, channel = in_unit(door, rebate), in_unit(base, groove)
    tongue = taken.high.y, door.box.high.y
    assert tongue[1] - tongue[0] == pytest.approx(7.0)
    assert tongue[0] - channel.low.y == pytest.approx(play / 2)
    assert channel.high.y - tongue[1] == pytest.approx(play / 2)
    (bar,) = joint.hardware(parts)
    assert bar.box.low.z == pytest.approx(17.6 - 11.0)
    assert bar.box.high.z == pytest.approx(door.box.low.z)


GOOD: tuple[Joint, ...] = (
    Butt(one="a", other="b"),
    Butt(one="a", other="b", is_glued=False),
    Housing(board="a", into="b"),
    Housing(board="a", into="b", is_glued=False),
    Crossing(board="a", into="b", edge=Side.BACK),
    Biscuits(one="a", other="b", biscuit=Biscuit.NO_10, count=3, level=Side.TOP),
)


@pytest.mark.parametrize("joint", GOOD, ids=lambda joint: joint.title)
def test_joints_tell_what_they_are(joint: Joint) -> None:
    """The words for lists, and whether glue goes in."""
    assert joint.parts == ("a", "b")
    assert joint.is_glued == (joint.title not in {"bearing", "groove, dry"})


def test_a_butt_needs_faces_that_meet() -> None:
    """Biscuits and screws need two faces that touch."""
    apart = a_board("rail", (18.0, 31, 401), (Side.RIGHT, 413.0), (Side.TOP, 187.0))
    joint = Biscuits(one="rail", other="side", biscuit=Biscuit.NO_20, count=2, level=Side.FRONT)
    with pytest.raises(DesignError, match="do not meet") as caught:
        joint.features(by_name(upright(), apart))
    assert caught.value.part == "rail"
    assert Butt(one="rail", other="side").proofs({}) == (Touch(one="rail", other="side"),)


@pytest.mark.parametrize(
    "numbers", [{"play": -0.1}, {"play": 5.1}, {"deep": 21.0}, {"endplay": -1.0}], ids=str
)
def test_a_housing_refuses_bad_clearances(numbers: dict[str, float]) -> None:
    """Each clearance has its range; both boards are named."""
    with pytest.raises(SizeError, match="shelf in side"):
        Housing(board="shelf", into="side", **numbers)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    "numbers",
    [{"tongue": 0.0}, {"tongue_length": -1.0}, {"depth": 0.0}, {"play": 0.1}, {"bar": 11.1}],
    ids=str,
)
def test_a_track_refuses_bad_numbers(numbers: dict[str, float]) -> None:
    """A bar thicker than its groove is deep would stand out of it."""
    good = {"tongue": 7.0, "tongue_length": 3.8, "depth": 11.0, "play": 1.0, "bar": 8.0}
    with pytest.raises(CabinetError, match="door in base"):
        Track(door="door", board="base", side=Side.BOTTOM, **(good | numbers))  # type: ignore[arg-type]
