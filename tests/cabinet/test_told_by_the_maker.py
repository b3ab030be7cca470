"""What a script tells of tools, rack, room and glue is refused by name, never with a traceback."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from cabinet.errors import KindError, SizeError
from cabinet.frame import Side
from cabinet.making.finishing import HARDWAX_OIL
from cabinet.making.glue import PVA
from cabinet.making.outline import rectangle
from cabinet.making.quote import Rates
from cabinet.making.rack import Flaw, FlawFace, FlawKind, Leftover, Rack, SheetToBuy
from cabinet.site.lift import Lift
from cabinet.site.room import (
    CornerReading,
    FaceReading,
    FloorReading,
    Lead,
    Mirror,
    Neighbour,
    RoomWall,
    Setting,
    Socket,
    Switch,
    WallPoint,
    Window,
)
from cabinet.site.uses import SpreadLoad, UseCase
from cabinet.site.walls import SolidMasonry
from cabinet.stock import birch_plywood
from cabinet.workshop import Clamp, Router, Workshop

BIRCH = birch_plywood(18, 17.6)
FLAW = Flaw(kind=FlawKind.HOLE, face=FlawFace.A, outline=rectangle(9, 9), depth=5.0)
LEFTOVER = Leftover(name="bench top", stock=BIRCH, outline=rectangle(613, 287), flaws=(FLAW,))
MASONRY = SolidMasonry(anchor_pull=1300.0, anchor_shear=1700.0)
ROOM = RoomWall(name="north wall", width=3113, height=2411, datum=1000, build=MASONRY)
SETTING = Setting(room=ROOM, at=WallPoint(311.0, 1409.0))
LEAD = Lead(through="leads", socket="lamp socket")
WINDOW = Window(name="yard window", left=811, bottom=907, width=613, height=719)
SOCKET = Socket(name="lamp socket", x=211, z=307)


def spoiled(thing: Any, **change: object) -> Callable[[], object]:
    """The thing with one wrong value, once it is called."""
    return lambda: replace(thing, **change)


SINGLE: dict[str, tuple[Callable[[], object], str]] = {
    "leftovers": (spoiled(Rack(), leftovers=LEFTOVER), "rack: leftovers is"),
    "sheets": (spoiled(Rack(), sheets=SheetToBuy(stock=BIRCH)), "rack: sheets is"),
    "flaws": (spoiled(LEFTOVER, flaws=FLAW), "bench top: flaws is"),
    "clamps": (spoiled(Workshop(), clamps=Clamp(opening=600, count=4)), "workshop: clamps is"),
    "drivers": (spoiled(Workshop(), drivers=Workshop().drivers[0]), "workshop: drivers is"),
    "cutters": (spoiled(Router(), cutters=8.0), "router: cutters is 8.0"),
    "loads": (
        spoiled(UseCase(name="trays"), loads=SpreadLoad(place="shelf", kilograms=7)),
        "trays: loads is",
    ),
    "leads": (spoiled(SETTING, leads=LEAD), "place: leads is"),
    "things": (spoiled(ROOM, things=WINDOW), "north wall: things is"),
    "corner": (spoiled(ROOM, left_corner=CornerReading(907, 3)), "left_corner is"),
}


@pytest.mark.parametrize("name", SINGLE)
def test_a_forgotten_comma_is_told(name: str) -> None:
    """A single thing in round brackets is no tuple; the message says what to add."""
    make, says = SINGLE[name]
    with pytest.raises(KindError) as caught:
        make()
    assert says in str(caught.value)
    assert "a comma after it" in str(caught.value)
    assert caught.value.part


WORDS: dict[str, tuple[Callable[[], object], str]] = {
    "flaw's kind": (spoiled(FLAW, kind="hole"), "FlawKind.HOLE"),
    "flaw's face": (spoiled(FLAW, face="face A"), "FlawFace.THROUGH"),
    "grain of a leftover": (spoiled(LEFTOVER, grain="width"), "Grain.WIDTH"),
    "grain of a sheet": (spoiled(SheetToBuy(stock=BIRCH), grain="width"), "Grain.WIDTH"),
    "sash": (spoiled(WINDOW, sash="hinged left"), "Sash.HINGED_LEFT"),
    "cables": (spoiled(SOCKET, cables=("top",)), "Side.TOP"),
    "duration": (spoiled(UseCase(name="trays"), duration="for ever"), "Duration.PERMANENT"),
    "lifter": (spoiled(Lift(to=907.0), who="woman"), "Lifter.WOMAN"),
}


@pytest.mark.parametrize("name", WORDS)
def test_a_word_where_a_member_is_wanted_is_refused(name: str) -> None:
    """It would have been taken for something else without a word; the members are listed."""
    make, says = WORDS[name]
    with pytest.raises(KindError) as caught:
        make()
    assert says in str(caught.value)
    assert caught.value.part
    assert "\n" not in str(caught.value)


NUMBERS: dict[str, tuple[Callable[[], object], str]] = {
    "half a clamp": (lambda: Clamp(opening=600.0, count=2.5), "clamps of 600 mm"),  # type: ignore[arg-type]
    "jaws without reach": (
        lambda: Clamp(opening=600.0, count=2, reach=0.0),
        "clamps of 600 mm: reach is 0",
    ),
    "no clamp": (lambda: Clamp(opening=600.0, count=0), "from 1"),
    "window": (spoiled(WINDOW, left=math.nan), "yard window: left edge"),
    "mirror": (
        lambda: Mirror(name="glass", left=3, bottom=math.inf, width=9, height=9),
        "glass: lower edge",
    ),
    "neighbour": (
        lambda: Neighbour(name="bench", left=None, bottom=0, width=9, height=9),  # type: ignore[arg-type]
        "bench: left edge",
    ),
    "socket": (spoiled(SOCKET, x=math.nan), "lamp socket: x of its middle"),
    "switch": (lambda: Switch(name="light", x=3.0, z=math.nan), "light: z of its middle"),
    "face reading": (lambda: FaceReading(3.0, math.nan, 5.0), "face reading: z"),
    "floor reading": (lambda: FloorReading(math.nan, 907.0), "floor reading: x"),
    "corner reading": (lambda: CornerReading(907.0, math.nan), "corner reading: x"),
    "plug": (spoiled(LEAD, plug=(56.0, math.nan)), "plug"),
    "plug's size": (spoiled(LEAD, plug=(56.0, -1.0)), "height of the plug"),
    "gap": (spoiled(SETTING, gap=-3.0), "place: gap"),
    "glue's press": (spoiled(PVA, press_minutes=30.0), "press minutes is 30.0"),
    "glue's faces": (spoiled(PVA, faces=3), "faces that are spread"),
    "glue's hours": (spoiled(PVA, full_hours=math.nan), "hours until full strength"),
    "coverage": (spoiled(HARDWAX_OIL, coverage=(30.0, 20.0)), "the least comes first"),
    "coats": (spoiled(HARDWAX_OIL, between_hours=8.0), "hours between coats is 8.0"),
    "rates": (lambda: Rates(slot=1.0), "rates: slot is 1.0"),  # type: ignore[arg-type]
}


@pytest.mark.parametrize("name", NUMBERS)
def test_a_number_that_is_none_is_refused_by_name(name: str) -> None:
    """NaN, half a clamp, one number where two are wanted."""
    make, says = NUMBERS[name]
    with pytest.raises(SizeError) as caught:
        make()
    assert says in str(caught.value)


def test_what_these_spoil_is_good() -> None:
    """Each is wrong in one value only."""
    for thing in (FLAW, LEFTOVER, ROOM, SETTING, LEAD, WINDOW, SOCKET, PVA, HARDWAX_OIL):
        assert replace(thing) == thing
    assert SOCKET.cables == (Side.TOP, Side.BOTTOM, Side.LEFT, Side.RIGHT)
