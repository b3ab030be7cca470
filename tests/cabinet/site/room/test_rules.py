"""Planted mistakes on the wall are caught over several sizes, and good settings stay silent."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from cabinet.design import Unit
from cabinet.errors import DesignError, UnknownNameError
from cabinet.findings import Finding, Severity, ordered
from cabinet.site.room.frame import WallPoint
from cabinet.site.room.report import room_report
from cabinet.site.room.room_wall import CornerReading, FaceReading
from cabinet.site.room.rules import room_findings
from cabinet.site.room.setting import Lead, Setting
from cabinet.site.room.things import Mirror, Neighbour, Pipe, Sash, Socket, Switch, Thing, Window
from cabinet.site.walls import TimberStuds
from tests.cabinet.site.room.rooms import MASONRY, reported, room, setting
from tests.cabinet.site.units import closed, hung, standing
from tests.examples import example_unit

ROOT = Path(__file__).parents[4]
RULE = re.compile(r'^\s+"([a-z]+(?:-[a-z]+)+)",$', re.MULTILINE)
WIDTHS = (613.0, 887.0, 1213.0)
X, Z = 733.0, 1411.0


def found(unit: Unit, where: Setting) -> dict[str, Finding]:
    """Findings by rule."""
    return {f.rule: f for f in room_findings(reported(unit, where))}


def at(*things: Thing, x: float = X, z: float = Z, gap: float = 0.0) -> Setting:
    """A setting among things."""
    return setting(room(*things), x, z, gap=gap)


def _faces(deep: float) -> Callable[[Unit], Setting]:
    """Hollow so deep behind the cleat."""

    def make(unit: Unit) -> Setting:
        level = Z + 500.0
        face = tuple(
            FaceReading(x, z, 20.0 + (deep if z == level else 0.0))
            for x in (X, X + unit.outline.high.x)
            for z in (Z, level)
        )
        return setting(room(face=face), X, Z)

    return make


Planted = tuple[str, Severity, Callable[[Unit], Setting]]
PLANTED: list[Planted] = [
    ("covers-switch", Severity.ERROR, lambda _: at(Switch(name="switch", x=X + 271.0, z=Z + 90.0))),
    (
        "covers-switch",
        Severity.WARNING,
        lambda _: at(Switch(name="switch", x=X - 60.0, z=Z + 90.0)),
    ),
    ("traps-socket", Severity.ERROR, lambda _: at(Socket(name="socket", x=X + 271.0, z=Z + 290.0))),
    (
        "covers-window",
        Severity.ERROR,
        lambda _: at(
            Window(name="window", left=X + 401.0, bottom=1700.0, width=700.0, height=600.0)
        ),
    ),
    (
        "covers-window",
        Severity.ERROR,
        lambda _: at(
            Window(name="window", left=X, bottom=Z + 630.0, width=700.0, height=300.0, sill=35.0)
        ),
    ),
    (
        "sash-blocked",
        Severity.ERROR,
        lambda u: at(
            Window(
                name="window",
                left=X + u.outline.high.x + 60.0,
                bottom=1200.0,
                width=700.0,
                height=900.0,
                sash=Sash.HINGED_LEFT,
                opens=120.0,
            )
        ),
    ),
    (
        "covers-mirror",
        Severity.ERROR,
        lambda _: at(
            Mirror(name="mirror", left=X - 300.0, bottom=1300.0, width=401.0, height=700.0)
        ),
    ),
    (
        "pipe-behind",
        Severity.ERROR,
        lambda _: at(
            Pipe(
                name="pipe",
                start=WallPoint(X + 201.0, 0.0),
                end=WallPoint(X + 201.0, 2467.0),
                diameter=22.0,
                stands_out=41.0,
            )
        ),
    ),
    (
        "hits-neighbour",
        Severity.ERROR,
        lambda _: at(
            Neighbour(name="shelf", left=X - 90.0, bottom=1500.0, width=120.0, height=30.0)
        ),
    ),
    (
        "gap-too-small",
        Severity.WARNING,
        lambda _: at(
            Neighbour(name="bench", left=600.0, bottom=0.0, width=900.0, height=1000.0, gap=500.0)
        ),
    ),
    (
        "gap-too-small",
        Severity.WARNING,
        lambda _: at(
            Neighbour(name="shelf", left=X - 40.0, bottom=1500.0, width=30.0, height=300.0),
            gap=25.0,
        ),
    ),
    ("no-lift-room", Severity.ERROR, lambda _: at(z=2467.0 - 613.0 - 43.0)),
    (
        "no-lift-room",
        Severity.ERROR,
        lambda _: at(Neighbour(name="beam", left=700.0, bottom=Z + 640.0, width=99.0, height=90.0)),
    ),
    ("hits-room", Severity.ERROR, lambda _: at(x=-17.0)),
    ("hits-room", Severity.ERROR, lambda u: at(x=3871.0 - u.outline.high.x + 9.0)),
    ("hits-room", Severity.ERROR, lambda _: at(z=2467.0 - 600.0)),
    (
        "hits-room",
        Severity.ERROR,
        lambda _: setting(room(left_corner=(CornerReading(1500.0, 29.0),)), 23.0, Z),
    ),
    ("on-skirting", Severity.WARNING, lambda _: setting(room(skirting=120.0), X, 77.0)),
    (
        "screw-in-cable-zone",
        Severity.ERROR,
        lambda _: at(Socket(name="socket", x=X + 112.0, z=313.0)),
    ),
    (
        "screw-in-cable-zone",
        Severity.ERROR,
        lambda _: at(Switch(name="switch", x=3600.0, z=Z + 478.0)),
    ),
    ("screw-in-cable-zone", Severity.ERROR, lambda _: at(x=11.0)),
    ("screw-in-cable-zone", Severity.ERROR, lambda _: at(z=2467.0 - 150.0 - 470.0)),
    (
        "screw-near-pipe",
        Severity.ERROR,
        lambda _: at(
            Pipe(
                name="pipe",
                start=WallPoint(X + 160.0, 0.0),
                end=WallPoint(X + 160.0, 2467.0),
                diameter=15.0,
            )
        ),
    ),
    ("packing-too-thick", Severity.ERROR, _faces(30.0)),
    ("packing-too-thick", Severity.ERROR, _faces(10.5)),
]


@pytest.mark.parametrize("width", WIDTHS)
@pytest.mark.parametrize(
    ("rule", "severity", "make"), PLANTED, ids=[f"{i} {row[0]}" for i, row in enumerate(PLANTED)]
)
def test_planted_mistakes_are_caught(
    rule: str, severity: Severity, make: Callable[[Unit], Setting], width: float
) -> None:
    """Each by its rule, with sizes and what to change in its sentence."""
    unit = hung(width=width)
    there = found(unit, make(unit))
    assert rule in there, sorted(there)
    finding = there[rule]
    assert finding.severity is severity, finding.sentence
    assert re.search(r"\d", finding.sentence)
    assert ";" in finding.sentence


LEADS: list[tuple[str, Lead, Socket]] = [
    (
        "not lie behind",
        Lead(through="air, top", socket="socket"),
        Socket(name="socket", x=300.0, z=1600.0),
    ),
    (
        "leaves 35 mm",
        Lead(through="air, top", socket="socket", plug_depth=48.0),
        Socket(name="socket", x=X + 300.0, z=Z + 105.0),
    ),
    (
        "does not pass",
        Lead(through="air, top", socket="socket", plug=(56.0, 38.0), plug_depth=41.0),
        Socket(name="socket", x=X + 300.0, z=Z + 350.0),
    ),
]


@pytest.mark.parametrize(("said", "lead", "socket"), LEADS, ids=[row[0] for row in LEADS])
def test_a_blocked_lead_is_caught(said: str, lead: Lead, socket: Socket) -> None:
    """Socket not behind the unit, no depth for the plug, no passage for it."""
    where = replace(at(socket), leads=(lead,))
    finding = found(closed(), where)["lead-blocked"]
    assert said in finding.sentence
    assert finding.severity is Severity.ERROR


def test_a_socket_behind_the_other_bay_is_caught() -> None:
    """In the main example the opening leads into the left bay."""
    unit = example_unit("greenhouse_wall_unit")
    lead = Lead(through="leads and plug", socket="socket", plug=(56.0, 38.0), plug_depth=48.0)
    for x, is_blocked in ((300.0, False), (900.0, True)):
        where = setting(room(Socket(name="socket", x=X + x, z=Z + 290.0)), X, Z, lead)
        there = found(unit, where)
        assert ("lead-blocked" in there) is is_blocked
        assert "traps-socket" not in there


def test_a_lead_that_is_not_there_is_refused() -> None:
    """Errors, not findings: an unknown opening, an unknown socket, a switch for a socket."""
    socket, switch = (
        Socket(name="socket", x=900.0, z=1700.0),
        Switch(name="switch", x=300.0, z=1000.0),
    )
    where = room(socket, switch)
    with pytest.raises(UnknownNameError, match="no opening 'hatch'"):
        room_report(closed(), setting(where, X, Z, Lead(through="hatch", socket="socket")))
    with pytest.raises(DesignError, match="no socket 'other'"):
        setting(where, X, Z, Lead(through="air, top", socket="other"))
    with pytest.raises(UnknownNameError, match="switch is no socket"):
        room_report(closed(), setting(where, X, Z, Lead(through="air, top", socket="switch")))


def test_every_rule_has_a_planted_mistake() -> None:
    """Read from the file of the rules."""
    source = (ROOT / "cabinet" / "site" / "room" / "rules.py").read_text(encoding="utf-8")
    rules = set(RULE.findall(source)) | set(re.findall(r'box, "([a-z-]+)"', source))
    rules |= set(re.findall(r'frame, "([a-z-]+)"', source))
    assert rules == {row[0] for row in PLANTED} | {"lead-blocked"}


@pytest.mark.parametrize("width", WIDTHS)
def test_no_false_alarm(width: float) -> None:
    """A wall with one of everything near the unit but clear of it: not a word."""
    unit = hung(width=width)
    right = X + width
    where = at(
        Switch(name="switch", x=X - 43.0 - 30.0, z=1100.0),
        Socket(name="socket", x=right + 60.0, z=313.0),
        Mirror(name="mirror", left=right + 5.0, bottom=1300.0, width=400.0, height=700.0),
        Window(
            name="window",
            left=right + 450.0,
            bottom=900.0,
            width=800.0,
            height=1200.0,
            sash=Sash.HINGED_LEFT,
            opens=110.0,
            sill=30.0,
            sill_ends=40.0,
        ),
        Neighbour(name="bench", left=600.0, bottom=0.0, width=900.0, height=910.0, gap=480.0),
        Pipe(
            name="pipe",
            start=WallPoint(300.0, 0.0),
            end=WallPoint(300.0, 900.0),
            diameter=22.0,
            stands_out=30.0,
        ),
    )
    assert found(unit, where) == {}


def test_no_false_alarm_on_the_examples() -> None:
    """Each on a plain wall, the standing ones with their ties in masonry and in studs."""
    for name in ("pantry_cupboard", "pottery_drying_rack"):
        unit = example_unit(name)
        low = min(part.box.low.z for part in unit.parts)
        for build in (MASONRY, TimberStuds(spacing=400.0, first=1111.0)):
            where = setting(room(build=build), 900.0, -low)
            assert room_findings(room_report(unit, where)) == ()
    unit = example_unit("greenhouse_wall_unit")
    assert room_findings(room_report(unit, setting(room(), 900.0, 1430.0))) == ()


def test_a_tie_in_a_cable_zone_is_caught() -> None:
    """The ties of a standing unit are screws in the wall as well."""
    unit = standing(height=1613.0)
    clear = setting(room(), 900.0, 45.0)
    assert found(unit, clear) == {}
    socket = Socket(name="socket", x=900.0 + 80.0, z=2200.0)
    finding = found(unit, setting(room(socket), 900.0, 45.0))["screw-in-cable-zone"]
    assert finding.sentence.startswith("tie 1 at x 980")
    assert "put the ties at" in finding.sentence


def test_just_inside_and_just_outside() -> None:
    """Half a millimetre either side of each limit."""
    unit = hung()
    lift = next(m.high for m in unit.moves if m.name == "unit drops on to its cleat")
    top = 2467.0 - 613.0 - lift
    for z, is_there in ((top - 0.5, False), (top + 0.5, True)):
        assert ("no-lift-room" in found(unit, at(z=z))) is is_there
    for gap, is_there in ((30.5, False), (29.5, True)):
        switch = Switch(name="switch", x=X - 43.0 - gap, z=Z + 300.0)
        assert ("covers-switch" in found(unit, at(switch))) is is_there
    # The sash leans 20 degrees past square over a unit 287 deep: 287 tan 20 = 104.5, and 10.
    for gap, is_there in ((115.0, False), (114.0, True)):
        window = Window(
            name="window",
            left=X + 887.0 + gap,
            bottom=1200.0,
            width=700.0,
            height=900.0,
            sash=Sash.HINGED_LEFT,
            opens=110.0,
        )
        assert ("sash-blocked" in found(unit, at(window))) is is_there


def test_the_remedy_of_a_screw_in_a_zone_is_silent() -> None:
    """The places that the sentence gives, put into the cleat."""
    socket = Socket(name="socket", x=X + 112.0, z=313.0)
    sentence = found(hung(), at(socket))["screw-in-cable-zone"].sentence
    told = sentence.split("wall_screw_places=(")[1].split(")")[0]
    places = tuple(float(each) for each in told.split(","))
    assert len(places) == 4
    moved = hung(places=places)
    assert found(moved, at(socket)) == {}
    xs = sorted(
        i.at.x - moved.by_name["cleat, wall half"].box.low.x
        for i in moved.hardware
        if "wall" in i.inside
    )
    assert xs == pytest.approx(places)


def test_a_traced_cable_frees_the_screw() -> None:
    """A licensed electrician found that it comes from the left."""
    socket = Socket(name="socket", x=X + 112.0, z=313.0)
    assert "screw-in-cable-zone" in found(hung(), at(socket))
    from_below = replace(socket, cables=())
    assert found(hung(), at(from_below)) == {}


def test_findings_are_in_order() -> None:
    """Errors first, the same on every run."""
    where = at(Switch(name="switch", x=X + 271.0, z=Z + 90.0), x=-17.0)
    report = reported(hung(), where)
    assert room_findings(report) == ordered(room_findings(report))
