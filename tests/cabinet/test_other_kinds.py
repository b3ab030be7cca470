"""Something of another kind than is asked for: one error that names the part and what is right."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Any

import pytest

from cabinet import (
    BackPanel,
    Clamp,
    Design,
    DoorTracks,
    FramePanel,
    Leftover,
    Prices,
    Rack,
    Rails,
    Router,
    SheetToBuy,
    Stock,
    Workshop,
    birch_plywood,
    board_shelf,
    carcass,
    feet,
    flaw,
    frame_shelf,
    hanging_cleat,
    hole_row,
    l_shape,
    pill,
    pin_rows,
    plinth,
    plug_pill,
    rectangle,
    sliding_doors,
    solid_wood,
    steel_sheet,
    top_covering,
)
from cabinet.errors import CabinetError, KindError
from cabinet.making.variants import variants
from cabinet.site.lift import Lift
from cabinet.site.room import (
    Centred,
    CornerReading,
    FaceReading,
    FloorReading,
    Lead,
    Mirror,
    Pipe,
    RoomWall,
    Setting,
    Socket,
    Switch,
    WallPoint,
)
from cabinet.site.room.best_place import best_place
from cabinet.site.uses import SpreadLoad, UseCase
from cabinet.site.walls import SolidMasonry
from cabinet.stock import Hatching
from drawings import keep_drawn

BIRCH = birch_plywood(nominal=18, measured=17.7)
BOX = carcass(
    width=720,
    height=500,
    depth=260,
    stock=BIRCH,
    back=Rails(stock=BIRCH, top=100, bottom=80, behind=2 * 17.7),
)
PINS = pin_rows(BOX)
TRACKS = DoorTracks(stock=birch_plywood(nominal=12, measured=11.9), bar=8)
GRILLE = FramePanel(stock=steel_sheet(1), diameter=6, pitch=10)
OLD = Leftover(name="old shelf", stock=BIRCH, outline=rectangle(900, 400))
HOLE = flaw("hole", "through", at=(10, 10), length=5, width=5)
SOCKET = Socket(name="lamp", x=500, z=900)
LOAD = SpreadLoad(place="shelf", kilograms=5)


def _box(**other: Any) -> object:
    sizes = {"width": 720, "height": 500, "depth": 260, "stock": BIRCH}
    return carcass(**{**sizes, **other})


def _stock(**other: Any) -> object:
    told: dict[str, Any] = {
        "material": "board",
        "code": "B",
        "nominal": 18,
        "measured": 18,
        "density_kg_m3": 600,
        "has_grain": True,
        "hatching": Hatching.BOARD,
        "colour": (0.1, 0.2, 0.3),
    }
    return Stock(**{**told, **other})


def _shelf(**other: Any) -> object:
    return board_shelf(PINS.bay(1), **{"hole": 3, "stock": BIRCH, "name": "shelf", **other})


def _frame(**other: Any) -> object:
    told = {"hole": 3, "stock": BIRCH, "name": "frame", "panel": GRILLE}
    return frame_shelf(PINS.bay(1), **{**told, **other})


def _room(**other: Any) -> object:
    told: dict[str, Any] = {
        "name": "wall",
        "width": 3000,
        "height": 2400,
        "datum": 1000,
        "build": SolidMasonry(anchor_pull=1900, anchor_shear=2300),
    }
    return RoomWall(**{**told, **other})


def _wide(width: float) -> Design:
    box = carcass(width=width, height=500, depth=260, stock=BIRCH)
    return Design("Unit", (box.component,))


def _setting(**other: Any) -> object:
    return Setting(**{"room": _room(), "at": WallPoint(100, 1200), **other})


UNIT = Design("Unit", (BOX.component,))
MAKE: Any = {"width": (700, 720)}
ANY: Any = None
"""Typed as anything: what a script without types hands over."""


WHERE = Setting(
    room=RoomWall(
        name="wall",
        width=3000,
        height=2400,
        datum=1000,
        build=SolidMasonry(anchor_pull=1900, anchor_shear=2300),
    ),
    at=WallPoint(100, 1200),
)


def _cases() -> list[tuple[str, Callable[[], object], str]]:
    """What is wrong, how, and a piece of the message that says what would be right."""
    some: list[tuple[str, Callable[[], object], str]] = []
    of_kind: list[tuple[str, Callable[[Any], object], str]] = [
        ("carcass of", lambda w: _box(stock=w), "birch_plywood("),
        ("rails of", lambda w: Rails(stock=w, top=9, bottom=9), "a Stock"),
        ("back of", lambda w: BackPanel(stock=w), "a Stock"),
        ("shelf of", lambda w: _shelf(stock=w), "a Stock"),
        ("frame of", lambda w: _frame(stock=w), "a Stock"),
        ("doors of", lambda w: DoorTracks(stock=w, bar=8), "a Stock"),
        ("cleat of", lambda w: hanging_cleat(BOX, stock=w), "a Stock"),
        ("covering of", lambda w: top_covering(BOX, w), "a Stock"),
        ("plinth of", lambda w: plinth(BOX, stock=w, height=80), "a Stock"),
        ("feet of", lambda w: feet(BOX, stock=w, height=45), "a Stock"),
        ("sheet of", lambda w: SheetToBuy(stock=w), "a Stock"),
        ("pins of", pin_rows, "carcass("),
        ("doors in", lambda w: sliding_doors(w, TRACKS), "carcass("),
        ("tracks", lambda w: sliding_doors(BOX, w), "DoorTracks("),
        ("panel", lambda w: _frame(panel=w), "FramePanel("),
        ("components", lambda w: Design("unit", w), "a tuple"),
        ("leftovers", lambda w: Rack(leftovers=w), "Leftover("),
        ("saw", lambda w: Workshop(saw=w), "Saw("),
        ("router", lambda w: Workshop(router=w), "Router("),
        ("bush", lambda w: Router(bush=w), "GuideBush("),
        ("things", lambda w: _room(things=w), "Window"),
        ("room", lambda w: _setting(room=w), "RoomWall("),
        ("at", lambda w: _setting(at=w), "WallPoint("),
    ]
    for value in (None, 17.7, "birch", birch_plywood):
        some += [
            (f"{name} {value!r:.20}", partial(make, value), right) for name, make, right in of_kind
        ]
    shelf: Any = board_shelf
    some += [
        ("stock for a back", lambda: _box(back=BIRCH), "Rails("),
        ("carcass's component", lambda: pin_rows(BOX.component), "not its component"),  # type: ignore[arg-type]
        ("carcass for a bay", lambda: shelf(BOX, hole=3, stock=BIRCH, name="s"), ".bay(1)"),
        ("pins for a bay", lambda: shelf(PINS, hole=3, stock=BIRCH, name="s"), ".bay(1)"),
        ("bay of the box", lambda: shelf(BOX.bay(1), hole=3, stock=BIRCH, name="s"), ".bay(1)"),
        ("lipping a word", lambda: _shelf(lipping="front"), '{"front"'),
        ("lipping a stock", lambda: _shelf(lipping=BIRCH), '{"front"'),
        ("lipping a list", lambda: _shelf(lipping=[BIRCH]), '{"front"'),
        ("lipping a number", lambda: _shelf(lipping={"front": 8}), "a Stock"),
        ("pattern a word", lambda: FramePanel(stock=BIRCH, diameter=6, pitch=9, pattern="round"), "Pattern."),  # type: ignore[arg-type]
        ("hatching a word", lambda: _stock(hatching="board"), "Hatching.BOARD"),
        ("grain a word", lambda: _stock(has_grain="yes"), "True or False"),
        ("colour a number", lambda: _stock(colour=5), "red, green and blue"),
        ("cleat's kind a word", lambda: hanging_cleat(BOX, stock=BIRCH, kind="hidden"), "CleatKind."),  # type: ignore[arg-type]
        ("one place", lambda: hanging_cleat(BOX, stock=BIRCH, wall_screw_places=100), "tuple"),  # type: ignore[arg-type]
        ("component alone", lambda: Design("unit", BOX.component), "(box.component,)"),  # type: ignore[arg-type]
        ("hung or not", lambda: Design("unit", (BOX.component,), is_hung="no"), "True or False"),  # type: ignore[arg-type]
        ("corners none", lambda: Leftover(name="l", stock=BIRCH, outline=ANY), "rectangle("),
        ("corners of three", lambda: Leftover(name="l", stock=BIRCH, outline=((0, 0, 0),) * 3), "2 numbers"),  # type: ignore[arg-type]
        ("stock for a sheet", lambda: Rack(sheets=(BIRCH,)), "SheetToBuy("),  # type: ignore[arg-type]
        ("one coordinate", lambda: rectangle(10, 10, at=(1,)), "2 numbers"),  # type: ignore[arg-type]
        ("missing none", lambda: l_shape(10, 10, missing=ANY), "2 numbers"),
        ("plug of one", lambda: plug_pill(BOX, "top", name="p", plug=(5,), left=300, back=110), "2 numbers"),  # type: ignore[arg-type]
        ("pill in nothing", lambda: pill(ANY, "top", name="p", length=9, width=9), "carcass("),
        ("first none", lambda: hole_row("base", name="h", face="top", first=ANY, line=("front", 5), count=2, pitch=9, diameter=5), '("bottom", 60)'),
        ("prices by name", lambda: Prices(currency="crowns", each={"glue": 3}), "shelf pin"),  # type: ignore[arg-type]
        ("price missing", lambda: Prices(currency="crowns", each=(("glue",),)), "shelf pin"),  # type: ignore[arg-type]
        ("one reading", lambda: _room(floor=FloorReading(1, 1000)), "tuple"),
        ("a number for a reading", lambda: _room(face=(3,)), "FaceReading("),
        ("pipe from a pair", lambda: Pipe(name="p", start=(1, 1), end=(1, 9), diameter=5), "WallPoint("),  # type: ignore[arg-type]
        ("plug a number", lambda: Lead(through="a", socket="b", plug=5), "2 numbers"),  # type: ignore[arg-type]
        ("no wishes", lambda: best_place(UNIT.resolve(), WHERE, ANY), "Centred("),
        ("one wish", lambda: best_place(UNIT.resolve(), WHERE, Centred(x=900)), "tuple"),  # type: ignore[arg-type]
        ("wish a word", lambda: best_place(UNIT.resolve(), WHERE, ("left",)), "Centred("),  # type: ignore[arg-type]
        ("unit not resolved", lambda: best_place(UNIT, WHERE, ()), "resolve()"),  # type: ignore[arg-type]
        ("no setting", lambda: best_place(UNIT.resolve(), ANY, ()), "Setting("),
        ("no function", lambda: variants(UNIT, MAKE, Rack()), "a function"),  # type: ignore[arg-type]
        ("no ranges", lambda: variants(_wide, ANY, Rack()), "by name"),
        ("one number", lambda: variants(_wide, {"width": 700}, Rack()), "steps("),  # type: ignore[dict-item]
        ("no rack", lambda: variants(_wide, MAKE, ANY), "Rack("),
        ("table a word", lambda: Lift(to=1400, has_table="yes"), "True or False"),  # type: ignore[arg-type]
        ("script none", lambda: keep_drawn(ANY, tell=None), "a path"),
        ("damp a word", lambda: UseCase(name="u", is_damp="yes"), "True or False"),  # type: ignore[arg-type]
    ]  # fmt: skip
    return some


@pytest.mark.parametrize(
    ("make", "right"),
    [(make, right) for _, make, right in _cases()],
    ids=[n for n, _, _ in _cases()],
)
def test_another_kind_is_refused_with_what_is_right(make: Callable[[], object], right: str) -> None:
    """One error of our own; its message says what would be right and is one line."""
    with pytest.raises(KindError) as caught:
        make()
    assert right in str(caught.value)
    assert caught.value.part
    assert "\n" not in str(caught.value)
    assert len(str(caught.value)) < 300


SLIPPED: dict[str, Callable[[], object]] = {
    "nominal a list": lambda: birch_plywood([18], 18),  # type: ignore[arg-type]
    "screws a word": lambda: hanging_cleat(BOX, stock=BIRCH, screws="x"),  # type: ignore[arg-type]
    "screws a half": lambda: hanging_cleat(BOX, stock=BIRCH, screws=2.5),  # type: ignore[arg-type]
    "inset a word": lambda: feet(BOX, stock=solid_wood("oak", 45, 700), height=45, inset="x"),  # type: ignore[arg-type]
    "inset negative": lambda: feet(BOX, stock=solid_wood("oak", 45, 700), height=45, inset=-10),
    "place of words": lambda: flaw("hole", "through", at=("a", "b"), length=5, width=5),  # type: ignore[arg-type]
    "half a clamp": lambda: Clamp(opening=100, count=1.5),  # type: ignore[arg-type]
    "x a word": lambda: Socket(name="s", x="a", z=1),  # type: ignore[arg-type]
    "z no number": lambda: Switch(name="s", x=1, z=float("nan")),
    "left an object": lambda: Mirror(name="m", left=ANY, bottom=1, width=9, height=9),
    "reading a word": lambda: FloorReading("a", 1),  # type: ignore[arg-type]
    "reading no number": lambda: FaceReading(float("nan"), 1, 2),
    "corner an object": lambda: CornerReading(ANY, 1),
    "gap negative": lambda: _setting(gap=-3),
    "boards too thin": lambda: _box(back=Rails(stock=birch_plywood(9, 9), top=100, bottom=80), stock=birch_plywood(9, 9)),
}  # fmt: skip


@pytest.mark.parametrize("name", SLIPPED)
def test_numbers_that_slipped_through(name: str) -> None:
    """Refused where they are told, not deep within a later computation."""
    with pytest.raises(CabinetError):
        SLIPPED[name]()


def test_lists_serve_as_tuples() -> None:
    """A script may give lists; what is kept can be neither changed nor emptied later."""
    flaws = [HOLE]
    old = Leftover(name="l", stock=BIRCH, outline=list(OLD.outline), flaws=flaws)  # type: ignore[arg-type]
    flaws.clear()
    assert old.flaws == (HOLE,)
    assert Rack(leftovers=[old]).leftovers == (old,)  # type: ignore[arg-type]
    assert Router(cutters=[6, 8]).cutters == (6.0, 8.0)  # type: ignore[arg-type]
    assert Design("unit", [BOX.component]).components == (BOX.component,)  # type: ignore[arg-type]
    room = _room(things=[SOCKET])
    assert isinstance(room, RoomWall)
    assert room.things == (SOCKET,)
    assert hash(room)
