"""Findings: planted mistakes are caught, each by its rule, and good units stay silent."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from cabinet.components.cleat import CleatKind
from cabinet.design import Design, Unit
from cabinet.errors import DesignError, UnknownNameError
from cabinet.findings import Finding, Severity, ordered
from cabinet.hardware import Screw
from cabinet.joint import Housing, Screwed
from cabinet.site.carriers import carriers
from cabinet.site.checks import LEAST_AIR, report_findings, site_findings
from cabinet.site.lift import Lift
from cabinet.site.limits import CABINET_TEST, VISIBLE, WOODWORK
from cabinet.site.report import site_report
from cabinet.site.shelf_check import check_held
from cabinet.site.tables import site_tables
from cabinet.site.uses import SpreadLoad, UseCase
from cabinet.site.walls import HollowWall, SolidMasonry, TimberStuds, Wall
from cabinet.stock import birch_plywood, rubber_sheet, steel_sheet
from tests.cabinet.site.units import closed, framed, holds, hung, standing
from tests.examples import example_design, example_unit

ROOT = Path(__file__).parents[3]
# How a rule's name stands in the code: as a keyword, or first in a call or tuple.
RULE = re.compile(r'(?:rule=|(?:report|cleat),\s+)"([a-z-]+)"')
MASONRY = SolidMasonry(anchor_pull=1500.0, anchor_shear=1800.0)
TROUBLE = {Severity.ERROR, Severity.WARNING, Severity.UNDECIDED}


def trouble(found: tuple[Finding, ...]) -> dict[str, Finding]:
    """Errors and warnings by rule."""
    return {f.rule: f for f in found if f.severity in TROUBLE}


# A wall whose studs lie where the wall screws of the hung unit are.
def studs_at_screws(unit: Unit) -> TimberStuds:
    """Studs behind each wall screw."""
    xs = sorted(item.at.x for item in unit.hardware if "wall" in item.inside)
    return TimberStuds(spacing=xs[1] - xs[0], first=xs[0])


SHELF_LOADS = {
    "greenhouse_wall_unit": {
        "left frame shelf": 9.0,
        "right frame shelf": 9.0,
        "tool shelf": 12.0,
        "base": 10.0,
    },
    "pantry_cupboard": {
        **{f"left shelf {i}": 14.0 for i in range(1, 5)},
        **{f"right shelf {i}": 14.0 for i in range(1, 4)},
        "base": 20.0,
    },
    "pottery_drying_rack": {**{f"shelf {i}": 17.0 for i in range(1, 5)}, "top": 8.0},
}


@pytest.mark.parametrize("name", sorted(SHELF_LOADS))
def test_no_false_alarm_on_the_examples(name: str) -> None:
    """Full and damp, on masonry or tied to it: not a word."""
    unit = example_unit(name)
    loads = tuple(SpreadLoad(place=p, kilograms=kg) for p, kg in SHELF_LOADS[name].items())
    uses = (
        UseCase(name="full", loads=loads, is_damp=True),
        UseCase(name="half full", loads=loads[::2]),
    )
    found = site_findings(unit, uses, MASONRY)
    assert found == (), [f.sentence for f in found]


def test_no_false_alarm_on_studs() -> None:
    """With a stud behind each screw."""
    unit = hung()
    assert trouble(site_findings(unit, (holds(shelf=15.0),), studs_at_screws(unit))) == {}


def _without(unit: Unit, name: str) -> Unit:
    return replace(
        unit,
        parts=tuple(p for p in unit.parts if p.name != name),
        joints=tuple(j for j in unit.joints if name not in j.parts),
        hardware=tuple(h for h in unit.hardware if name not in h.inside),
    )


def _unglued(unit: Unit) -> Unit:
    joints = tuple(replace(j, is_glued=False) if isinstance(j, Screwed) else j for j in unit.joints)
    return replace(unit, joints=joints)


def _unglued_top(unit: Unit) -> Unit:
    joints = tuple(replace(j, is_glued=False) if isinstance(j, Housing) else j for j in unit.joints)
    return replace(unit, joints=joints)


def _edge_screwed() -> Unit:
    design = example_design("pottery_drying_rack")
    box = design.components[0]
    screw = Screw(diameter=4.0, length=50.0, head_diameter=8.0)
    joint = Screwed(through="left side", into="bottom rail", screw=screw, count=2, inset=30.0)
    joints = tuple(j for j in box.joints if j.parts != ("bottom rail", "left side"))
    parts = (replace(box, joints=(*joints, joint)), *design.components[1:])
    return Design(design.name, parts, is_hung=False).resolve()


THIN = birch_plywood(nominal=9, measured=9.1)
Planted = tuple[str, Callable[[], Unit], UseCase, Wall | None, Severity]
PLANTED: list[Planted] = [
    (
        "screws-too-few",
        lambda: hung(wall_screws=2),
        holds(shelf=35.0, base=30.0),
        MASONRY,
        Severity.ERROR,
    ),
    (
        "screws-too-few",
        hung,
        holds(shelf=15.0),
        TimberStuds(spacing=600.0, first=-900.0),
        Severity.ERROR,
    ),
    (
        "screw-misses",
        lambda: hung(height=115.0),
        holds(shelf=1.0),
        TimberStuds(spacing=400.0, first=230.0),
        Severity.WARNING,
    ),
    ("studs-not-found", hung, holds(shelf=1.0), TimberStuds(spacing=300.0), Severity.WARNING),
    (
        "screw-too-short",
        hung,
        holds(shelf=15.0),
        TimberStuds(spacing=400, first=113, board=35.0),
        Severity.ERROR,
    ),
    (
        "screw-too-short",
        lambda: hung(layers=3, height=120.0),
        holds(shelf=5.0),
        MASONRY,
        Severity.ERROR,
    ),
    ("hollow-wall", hung, holds(shelf=15.0), HollowWall(anchor_rating=40.0), Severity.WARNING),
    ("screws-too-few", hung, holds(shelf=15.0), HollowWall(anchor_rating=40.0), Severity.ERROR),
    (
        "cleat-weak",
        lambda: hung(layers=1, height=60.0, wall_screws=2),
        holds(shelf=35.0, base=40.0, top=40.0),
        SolidMasonry(anchor_pull=9000.0, anchor_shear=9000.0),
        Severity.ERROR,
    ),
    (
        "screw-near-edge",
        lambda: hung(height=60.0),
        holds(shelf=5.0),
        MASONRY,
        Severity.WARNING,
    ),
    (
        "cleat-joint-weak",
        lambda: _unglued(hung(rail_screws=2)),
        holds(shelf=40.0, base=60.0, top=60.0),
        SolidMasonry(anchor_pull=9000.0, anchor_shear=9000.0),
        Severity.ERROR,
    ),
    ("nothing-hangs-it", lambda: hung(has_cleat=False), holds(shelf=5.0), MASONRY, Severity.ERROR),
    (
        "no-foot",
        lambda: _without(hung(kind=CleatKind.BEHIND), "spacer"),
        holds(shelf=5.0),
        MASONRY,
        Severity.ERROR,
    ),
    ("shelf-sags", lambda: standing(width=1613.0), holds(shelf=60.0), MASONRY, Severity.ERROR),
    ("shelf-sags", lambda: standing(width=1613.0), holds(shelf=20.0), MASONRY, Severity.WARNING),
    (
        "shelf-breaks",
        lambda: standing(width=1613.0, shelf=THIN),
        holds(shelf=110.0),
        MASONRY,
        Severity.ERROR,
    ),
    ("pin-overloaded", standing, holds(shelf=95.0), MASONRY, Severity.ERROR),
    (
        "panel-weak",
        lambda: framed(panel=steel_sheet(0.5)),
        holds(grate=60.0),
        MASONRY,
        Severity.ERROR,
    ),
    (
        "panel-weak",
        lambda: framed(panel=steel_sheet(1)),
        holds(grate=30.0),
        MASONRY,
        Severity.WARNING,
    ),
    (
        "corner-weak",
        lambda: framed(panel=steel_sheet(2), depth=690.0),
        holds(grate=400.0),
        MASONRY,
        Severity.ERROR,
    ),
    ("tips-over", standing, holds(shelf=5.0), None, Severity.WARNING),
    (
        "tie-weak",
        lambda: standing(height=1613.0),
        holds(shelf=1.0),
        HollowWall(anchor_rating=0.5),
        Severity.ERROR,
    ),
    ("lifts-off", lambda: hung(rail=66.0), holds(shelf=5.0), MASONRY, Severity.WARNING),
    (
        "carcass-joint-weak",
        lambda: _unglued_top(hung()),
        holds(shelf=40.0, base=60.0, top=60.0),
        SolidMasonry(anchor_pull=9000.0, anchor_shear=9000.0),
        Severity.ERROR,
    ),
    ("screw-in-edge", _edge_screwed, holds(shelf_1=5.0), MASONRY, Severity.ERROR),
    (
        "no-air",
        lambda: closed(openings=("top",)),
        holds(grate=5.0, is_damp=True),
        MASONRY,
        Severity.ERROR,
    ),
    (
        "no-air",
        lambda: closed(openings=("base",)),
        holds(grate=5.0, is_damp=True),
        MASONRY,
        Severity.ERROR,
    ),
]


@pytest.mark.parametrize(
    ("rule", "make", "use", "wall", "severity"),
    PLANTED,
    ids=[f"{i} {row[0]}" for i, row in enumerate(PLANTED)],
)
def test_planted_mistakes_are_caught(
    rule: str, make: Callable[[], Unit], use: UseCase, wall: Wall | None, severity: Severity
) -> None:
    """Each by its rule, with a sentence that holds its sizes and names its part."""
    found = trouble(site_findings(make(), (use,), wall))
    assert rule in found, sorted(found)
    finding = found[rule]
    assert finding.severity is severity, finding.sentence
    assert finding.parts
    assert any(part in finding.sentence for part in finding.parts)


def test_every_rule_has_a_planted_mistake() -> None:
    """But for the lift, which has a test of its own."""
    source = "".join(
        path.read_text(encoding="utf-8")
        for path in sorted((ROOT / "cabinet" / "site").glob("*.py"))
    )
    rules = set(RULE.findall(source))
    assert rules - {"heavy-lift"} == {row[0] for row in PLANTED}


def test_the_right_remedy_is_silent() -> None:
    """Enough screws, a doubled cleat, a shorter shelf, openings: the same loads, no trouble."""
    loaded = holds(shelf=35.0, base=30.0)
    assert "screws-too-few" not in trouble(site_findings(hung(wall_screws=9), (loaded,), MASONRY))
    heavy = holds(shelf=35.0, base=40.0, top=40.0)
    strong = SolidMasonry(anchor_pull=9000.0, anchor_shear=9000.0)
    assert "cleat-weak" not in trouble(site_findings(hung(), (heavy,), strong))
    assert trouble(site_findings(standing(), (holds(shelf=30.0),), MASONRY)) == {}
    assert trouble(site_findings(closed(), (holds(grate=5.0, is_damp=True),), MASONRY)) == {}


def test_dry_things_need_no_air() -> None:
    """Only damp use asks for it."""
    shut = closed(openings=())
    assert "no-air" not in trouble(site_findings(shut, (holds(grate=5.0),), MASONRY))


def test_the_least_air_counts_the_whole_way() -> None:
    """Openings of 500 mm2 one after the other let through less than 500."""
    report = site_report(closed(), (holds(grate=5.0, is_damp=True),), MASONRY)
    path = report.air[0]
    assert path.area > LEAST_AIR
    narrow = replace(path, area=LEAST_AIR - 1.0)
    found = trouble(report_findings(replace(report, air=(narrow,))))
    assert found["no-air"].found == pytest.approx(LEAST_AIR - 1.0)


def _sag_at(unit: Unit, kilograms: float, *, lasting: bool) -> float:
    shelf = next(c for c in carriers(unit) if c.name == "shelf")
    found = check_held(unit, shelf, shelf.held[0], holds(shelf=kilograms))
    return (found.lasting_sag if lasting else found.sag).likely


def _kilograms_for(unit: Unit, sag: float, *, lasting: bool = False) -> float:
    """Sag is linear in the load, so two points give the load for any sag."""
    one, two = _sag_at(unit, 1.0, lasting=lasting), _sag_at(unit, 11.0, lasting=lasting)
    return 1.0 + 10.0 * (sag - one) / (two - one)


def test_just_inside_and_just_outside_of_the_limits_of_sag() -> None:
    """Half a percent of load either side of each limit."""
    unit = standing(width=1613.0)
    shelf = next(c for c in carriers(unit) if c.name == "shelf")
    span = shelf.held[0].supports[1] - shelf.held[0].supports[0]
    at_error = _kilograms_for(unit, WOODWORK.allowed(span))
    at_test = _kilograms_for(unit, CABINET_TEST.allowed(span))
    later = _kilograms_for(unit, WOODWORK.allowed(span), lasting=True)
    at_warning = min(at_test, later)
    for kilograms, outside, inside in (
        (at_error, Severity.ERROR, Severity.WARNING),
        (at_warning, Severity.WARNING, None),
    ):
        above = trouble(site_findings(unit, (holds(shelf=kilograms * 1.005),), MASONRY))
        below = trouble(site_findings(unit, (holds(shelf=kilograms * 0.995),), MASONRY))
        assert above["shelf-sags"].severity is outside
        assert (below["shelf-sags"].severity if "shelf-sags" in below else None) is inside


def test_on_show_the_eye_decides() -> None:
    """A sag past span/600 is a note, and only where the use says that it shows."""
    unit = standing(width=1200.0)
    use = holds(shelf=10.0)
    shelf = next(c for c in carriers(unit) if c.name == "shelf")
    span = shelf.held[0].supports[1] - shelf.held[0].supports[0]
    assert _sag_at(unit, 10.0, lasting=True) > VISIBLE.allowed(span)
    plain = site_findings(unit, (use,), MASONRY)
    shown = site_findings(unit, (replace(use, is_on_show=True),), MASONRY)
    assert "shelf-sags" not in {f.rule for f in plain}
    assert {f.severity for f in shown if f.rule == "shelf-sags"} == {Severity.NOTE}


def test_the_worst_use_is_told() -> None:
    """Of two uses the heavier one is named, once."""
    uses = (holds("little", shelf=5.0), holds("much", shelf=60.0))
    found = [
        f for f in site_findings(standing(width=1613.0), uses, MASONRY) if f.rule == "shelf-sags"
    ]
    assert len(found) == 1
    assert "'much'" in found[0].sentence
    assert "span/144" in found[0].sentence


# Passed limit by limit: span/144 at once, the test of cabinets, span/144 after years, the eye.
@pytest.mark.parametrize(
    ("width", "kilograms", "is_on_show", "limit"),
    [
        (1613.0, 60.0, False, "span/144"),
        (1613.0, 17.0, False, "span/192"),
        (917.0, 70.0, False, "span/144"),
        (1200.0, 10.0, True, "span/600"),
    ],
)
def test_the_longest_span_told_would_do(
    width: float, kilograms: float, is_on_show: bool, limit: str
) -> None:
    """A unit built anew with the span told, under the same load, is within that limit."""
    use = replace(holds(shelf=kilograms), is_on_show=is_on_show)
    sentence = _sag_said(standing(width=width), use)
    assert limit in sentence
    told = float(sentence.split("make the span ")[1].split(" mm")[0])
    thicker = float(sentence.split("or the board ")[1].split(" %")[0])
    assert thicker > 0
    span = float(sentence.split("over ")[1].split(" mm")[0])
    assert told < span
    assert limit not in _sag_said(standing(width=width - (span - told) - 1.0), use)
    # It is no more than needed: own weight and the shares of shelf beyond its pins are little.
    assert told > 0.85 * span * math.sqrt(_share_allowed(sentence))


def _sag_said(unit: Unit, use: UseCase) -> str:
    found = {f.rule: f.sentence for f in site_findings(unit, (use,), MASONRY)}
    return found.get("shelf-sags", "")


def _share_allowed(sentence: str) -> float:
    """What the limit allows over what was found."""
    found = float(sentence.split("about ")[1].split(" mm", maxsplit=1)[0])
    return float(sentence.split("allows ")[1].split(" mm", maxsplit=1)[0]) / found


def test_heavy_lift() -> None:
    """Alone to head height it is too much; what comes out first is named; a table helps."""
    unit = example_unit("greenhouse_wall_unit")
    use = (holds(tool_shelf=5.0),)
    alone = trouble(site_findings(unit, use, MASONRY, lift=Lift(to=1450.0)))["heavy-lift"]
    assert alone.found == pytest.approx(38.0, abs=0.1)
    assert alone.limit == 10.0
    assert "28.3 kg" in alone.sentence
    assert "left door" in alone.parts
    light = trouble(site_findings(hung(), (holds(shelf=5.0),), MASONRY, lift=Lift(to=900.0)))
    assert "heavy-lift" not in light


def test_a_tie_that_holds_silences_tipping() -> None:
    """The wall is given and holds: nothing is left to say; the sheet of loads has the ties."""
    report = site_report(standing(height=1613.0), (holds(shelf=5.0),), MASONRY)
    assert not {"tips-over", "tie-weak"} & {f.rule for f in report_findings(report)}
    assert report.anti_tip is not None
    assert report.anti_tip.pull <= report.anti_tip.holds
    fastened = next(t for t in site_tables(report) if t.title == "Fastened")
    assert "ties against tipping" in fastened.rows[0]


@pytest.mark.parametrize("wall", [None, "plasterboard"])
def test_a_hung_unit_needs_a_known_wall(wall: object) -> None:
    """An error, not a finding: nothing can be computed."""
    with pytest.raises(UnknownNameError, match="unknown wall"):
        site_findings(hung(), (holds(shelf=5.0),), wall)  # type: ignore[arg-type]


def test_bad_uses_are_refused() -> None:
    """No use, two of one name, a place that is not there."""
    with pytest.raises(DesignError, match="at least one"):
        site_findings(standing(), ())
    with pytest.raises(DesignError, match="own name"):
        site_findings(standing(), (holds(shelf=5.0), holds(base=5.0)))
    with pytest.raises(UnknownNameError, match="no place 'loft'"):
        site_findings(standing(), (holds(loft=5.0),))


def test_a_shelf_of_unknown_material_is_refused() -> None:
    """Its elastic values are missing; the message names it."""
    unit = standing()
    rubber = rubber_sheet(17.6)
    parts = tuple(
        replace(p, board=replace(p.board, stock=rubber)) if p.name == "shelf" else p
        for p in unit.parts
    )
    with pytest.raises(UnknownNameError, match="rubber sheet: unknown material"):
        site_findings(replace(unit, parts=parts), (holds(shelf=5.0),))


def test_the_wall_is_always_spoken_of_on_the_sheet_not_in_findings() -> None:
    """What is true of every unit stands in the assumptions and defers to licensed people."""
    report = site_report(hung(), (holds(shelf=15.0),), MASONRY)
    assert report_findings(report) == ()
    said = " ".join(report.assumptions)
    for words in ("never a promise", "leave out the wall", "local codes", "licensed", "cables"):
        assert words in said


def test_findings_are_in_order() -> None:
    """The same on every run."""
    unit, uses = hung(wall_screws=2, height=60.0), (holds(shelf=35.0, base=30.0),)
    found = site_findings(unit, uses, MASONRY)
    assert len(found) > 1
    assert found == ordered(found) == site_findings(unit, uses, MASONRY)
