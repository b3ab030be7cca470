"""Findings about a unit on its wall: what it covers, what it blocks, where its screws go."""

from __future__ import annotations

from collections.abc import Iterator

from cabinet.findings import Finding, Severity, ordered
from cabinet.frame import Side, UnitPoint
from cabinet.site.hanging_findings import studs_missed
from cabinet.site.room.cable_zones import RULE
from cabinet.site.room.frame import WallBox, WallPoint
from cabinet.site.room.keep_clear import HAND
from cabinet.site.room.leads import LeadWay, depth_before
from cabinet.site.room.report import RoomReport
from cabinet.site.room.screw_places import FROM_PIPE, ScrewPlace, ScrewPlan
from cabinet.site.room.scribe import gaps
from cabinet.site.room.swing import lift_room, sash_room
from cabinet.site.room.things import Mirror, Neighbour, Pipe, Socket, Switch, Window
from cabinet.site.wall_fixings import length_needed

# More packing than this is a batten's business (common practice, no source).
MOST_PACKING = 15.0
# A unit may press into a wall by less than measuring can tell, mm.
_INTO = 1.0


def room_findings(report: RoomReport) -> tuple[Finding, ...]:
    """Everything that is found about a unit in its setting, errors first."""
    found = [
        *_ends(report),
        *_things(report),
        *_leads(report),
        *_lift(report),
        *_screws(report),
        *_studs(report),
        *_true(report),
    ]
    return ordered(found)


def _finding(
    report: RoomReport,
    rule: str,
    severity: Severity,
    sentence: str,
    numbers: tuple[float | None, float | None] = (None, None),
    where: WallBox | WallPoint | None = None,
    parts: tuple[str, ...] = (),
) -> Finding:
    unit, at = report.unit, report.setting.at
    place = None
    if where is not None:
        centre = where.centre if isinstance(where, WallBox) else where
        place = UnitPoint(centre.x - at.x, unit.outline.high.y, centre.z - at.z)
    return Finding(
        rule=rule,
        severity=severity,
        parts=parts or (unit.name,),
        where=place,
        found=numbers[0],
        limit=numbers[1],
        sentence=sentence,
    )


def way_out(outline: WallBox, forbidden: WallBox) -> str:
    """The shortest straight move that brings a unit off a box, in words."""
    moves = (
        (outline.high.x - forbidden.low.x, "to the left"),
        (forbidden.high.x - outline.low.x, "to the right"),
        (outline.high.z - forbidden.low.z, "down"),
        (forbidden.high.z - outline.low.z, "up"),
    )
    distance, way = min(moves)
    return f"move it {distance:.0f} mm {way}"


def _ends(report: RoomReport) -> Iterator[Finding]:
    """The wall's own ends, floor and ceiling."""
    room, outline = report.setting.room, report.outline
    over = {
        "the wall's left end": -outline.low.x,
        "the wall's right end": outline.high.x - room.width,
        "the ceiling": outline.high.z - room.height,
        "the floor": -outline.low.z if report.unit.is_hung else 0.0,
    }
    for side, what in ((Side.LEFT, "the wall's left end"), (Side.RIGHT, "the wall's right end")):
        line = gaps(room, outline, side)
        if line:
            over[what] = -min(width for _, width in line)
    for what, into in over.items():
        if into > _INTO:
            yield _finding(
                report,
                "hits-room",
                Severity.ERROR,
                f"{report.unit.name}: at x {outline.low.x:.0f}, z {outline.low.z:.0f} it reaches "
                f"{into:.0f} mm past {what}; move it back by that much or make it smaller",
                (into, 0.0),
            )
    if room.skirting and report.unit.is_hung and outline.low.z < room.skirting:
        yield _finding(
            report,
            "on-skirting",
            Severity.WARNING,
            f"{report.unit.name}: its underside at z {outline.low.z:.0f} mm is below the top of "
            f"the skirting, {room.skirting:.0f} mm high and {room.skirting_thick:.0f} mm thick, "
            f"which keeps it off the wall; hang it {room.skirting - outline.low.z:.0f} mm higher "
            "or cut the skirting away behind it",
            (outline.low.z, room.skirting),
        )


def _things(report: RoomReport) -> Iterator[Finding]:
    led = {way.socket.name for way in report.leads}
    for thing in report.setting.room.things:
        if isinstance(thing, Switch):
            yield from _switch(report, thing)
        elif isinstance(thing, Socket) and thing.name not in led:
            yield from _socket(report, thing)
        elif isinstance(thing, Window):
            yield from _window(report, thing)
        elif isinstance(thing, Mirror):
            yield from _covered(report, thing.box, "covers-mirror", f"the mirror {thing.name!r}")
        elif isinstance(thing, Pipe):
            yield from _pipe(report, thing)
        elif isinstance(thing, Neighbour):
            yield from _neighbour(report, thing)


def _covered(report: RoomReport, box: WallBox, rule: str, what: str) -> Iterator[Finding]:
    if not report.outline.covers(box):
        return
    across, up = report.outline.overlap(box)
    yield _finding(
        report,
        rule,
        Severity.ERROR,
        f"{report.unit.name}: it covers {what} over {across:.0f} x {up:.0f} mm; "
        f"{way_out(report.outline, box)}",
        (min(across, up), 0.0),
        box,
    )


def _switch(report: RoomReport, switch: Switch) -> Iterator[Finding]:
    box, outline = switch.box, report.outline
    if outline.covers(box):
        yield from _covered(report, box, "covers-switch", f"the switch {switch.name!r}")
        return
    across, up = outline.overlap(box)
    gap = max(-across, -up)
    if gap < HAND - 1e-6:
        yield _finding(
            report,
            "covers-switch",
            Severity.WARNING,
            f"{report.unit.name}: it stands {gap:.0f} mm from the switch {switch.name!r}, and a "
            f"hand needs {HAND:.0f} mm (common practice, no source); move it "
            f"{HAND - gap:.0f} mm away",
            (gap, HAND),
            box,
        )


def _socket(report: RoomReport, socket: Socket) -> Iterator[Finding]:
    if not report.outline.covers(socket.box):
        return
    yield _finding(
        report,
        "traps-socket",
        Severity.ERROR,
        f"{report.unit.name}: it covers the socket {socket.name!r} at x {socket.x:.0f}, z "
        f"{socket.z:.0f}, which must be reached; {way_out(report.outline, socket.box)}, or say "
        "which lead it feeds through which opening (Lead)",
        (None, None),
        socket.box,
    )


def _window(report: RoomReport, window: Window) -> Iterator[Finding]:
    outline = report.outline
    yield from _covered(report, window.frame, "covers-window", f"the window {window.name!r}")
    sill = window.sill_box
    if sill is not None:
        yield from _covered(
            report, sill, "covers-window", f"the sill of the window {window.name!r}"
        )
    swept = sash_room(window, report.depth)
    if swept is None or outline.covers(window.frame) or not outline.covers(swept):
        return
    across, _ = outline.overlap(swept)
    yield _finding(
        report,
        "sash-blocked",
        Severity.ERROR,
        f"{report.unit.name}: the sash of {window.name!r} {window.sash.value}, to "
        f"{window.opens:.0f} degrees, and meets the unit, which stands {report.depth:.0f} mm out "
        f"from the wall; it needs {swept.width - window.width:.0f} mm beside the frame: "
        f"{way_out(outline, swept)}",
        (swept.width - window.width - across, swept.width - window.width),
        swept,
    )


def _pipe(report: RoomReport, pipe: Pipe) -> Iterator[Finding]:
    if not pipe.stands_out or not report.outline.covers(pipe.box):
        return
    depth, part = depth_before(report.unit, report.setting, pipe.box)
    if depth >= pipe.stands_out:
        return
    yield _finding(
        report,
        "pipe-behind",
        Severity.ERROR,
        f"{report.unit.name}: behind it runs the pipe {pipe.name!r}, which stands "
        f"{pipe.stands_out:.0f} mm out, but {part} leaves {depth:.0f} mm before the wall; "
        f"{way_out(report.outline, pipe.box)}, or notch {part} round it",
        (depth, pipe.stands_out),
        pipe.box,
        (report.unit.name, part),
    )


def _neighbour(report: RoomReport, thing: Neighbour) -> Iterator[Finding]:
    outline, box = report.outline, thing.box
    if outline.covers(box):
        yield from _covered(report, box, "hits-neighbour", thing.name)
        return
    across, up = outline.overlap(box)
    gap, wish = max(-across, -up), max(thing.gap, report.setting.gap)
    if gap < wish - 1e-6:
        wide = box.grown(left=wish, right=wish, down=wish, up=wish)
        yield _finding(
            report,
            "gap-too-small",
            Severity.WARNING,
            f"{report.unit.name}: {gap:.0f} mm to {thing.name}, which needs {wish:.0f} mm; "
            f"{way_out(outline, wide)}",
            (gap, wish),
            box,
        )


def _leads(report: RoomReport) -> Iterator[Finding]:
    for way in report.leads:
        said = _lead_fault(way)
        if said:
            yield _finding(
                report,
                "lead-blocked",
                Severity.ERROR,
                f"{report.unit.name}: the lead from {way.socket.name} through "
                f"{way.lead.through!r}: {said}",
                (way.depth if way.nearest else None, way.lead.plug_depth),
                way.socket.box,
            )


def _lead_fault(way: LeadWay) -> str:
    """What stands in a lead's way, in words; "" for nothing."""
    if not way.is_behind:
        return (
            f"the socket at x {way.socket.x:.0f}, z {way.socket.z:.0f} does not lie behind the unit; "
            "move the unit over it, or leave this lead out"
        )
    if not way.is_same_bay:
        return (
            f"the opening leads into the bay from X {way.bay[0]:.0f} to {way.bay[1]:.0f} and the "
            "socket lies behind another; move the opening, or cut a way through the divider"
        )
    if way.depth < way.lead.plug_depth - 1e-6:
        return (
            f"its plug stands {way.lead.plug_depth:.0f} mm out and {way.nearest} leaves "
            f"{way.depth:.0f} mm before the wall; move the unit so that the socket lies between "
            "its rails, or take a flatter plug"
        )
    if not way.passes_plug:
        return (
            f"a plug of {way.lead.plug[0]:.0f} x {way.lead.plug[1]:.0f} mm does not pass the "
            f"opening of {way.opening[0]:.0f} x {way.opening[1]:.0f} mm; make it larger"
        )
    return ""


def _lift(report: RoomReport) -> Iterator[Finding]:
    room = lift_room(report.unit, report.setting)
    if room is None or room.free >= room.needed - 1e-6:
        return
    yield _finding(
        report,
        "no-lift-room",
        Severity.ERROR,
        f"{report.unit.name}: to drop on to its cleat it is raised by {room.needed:.0f} mm, the "
        f"bevel's height and a little, but {room.under} leaves {room.free:.0f} mm above it; hang "
        f"it {room.needed - room.free:.0f} mm lower, or take a thinner cleat",
        (room.free, room.needed),
        room.above,
    )


def _studs(report: RoomReport) -> Iterator[Finding]:
    """Wall screws beside the studs; with uses, the report of loads tells of them."""
    if report.site is None and report.cleat is not None:
        yield from studs_missed(report.cleat, report.setting.wall)


def _screws(report: RoomReport) -> Iterator[Finding]:
    plan = report.screws
    if plan is None:
        return
    for place in plan.designed:
        if place.zones:
            yield _finding(
                report,
                "screw-in-cable-zone",
                Severity.ERROR,
                f"{place.name} at x {place.at.x:.0f}, z {place.at.z:.0f} lies in a "
                f"zone where a cable is likely, {place.zones[0].name} ({RULE}); "
                f"{_instead(plan, place)}; find cables with a detector first, and leave doubts to a "
                "licensed electrician",
                (place.at.x, None),
                place.at,
                (place.name,),
            )
        elif place.pipes:
            yield _finding(
                report,
                "screw-near-pipe",
                Severity.ERROR,
                f"{place.name} at x {place.at.x:.0f}, z {place.at.z:.0f} lies within "
                f"{FROM_PIPE:.0f} mm of the pipe {place.pipes[0]!r}; {_instead(plan, place)}",
                (place.at.x, None),
                place.at,
                (place.name,),
            )


def _instead(plan: ScrewPlan, place: ScrewPlace) -> str:
    """What to change so that the screws are clear."""
    zone = place.zones[0].box if place.zones else None
    if plan.proposed is None or len(plan.proposed) < len(plan.designed):
        if zone is not None and zone.width > zone.height:
            return (
                f"no place along that line is clear of it: set the unit so that the screws are "
                f"not between z {zone.low.z:.0f} and {zone.high.z:.0f}"
            )
        return "too few clear places are left along that line: set the unit elsewhere"
    places = ", ".join(f"{x:g}" for x in plan.proposed)
    if not place.name.startswith("wall screw"):
        return f"put the ties at {places} mm from the unit's left side"
    return f"give hanging_cleat(wall_screw_places=({places}))"


def _true(report: RoomReport) -> Iterator[Finding]:
    packed, cleat = report.packing, report.cleat
    if packed is None or cleat is None:
        return
    need = length_needed(cleat, report.setting.room.build)
    behind = max((p.thick for p in packed.pieces if p.what.startswith("wall screw")), default=0.0)
    if cleat.screw.length >= need > cleat.screw.length - behind:
        yield _finding(
            report,
            "packing-too-thick",
            Severity.ERROR,
            f"{cleat.wall_half.name}: {behind:.1f} mm of packing behind it leave the wall screws of "
            f"{cleat.screw.length:g} mm too short; with it they must be {need + behind:.0f} mm",
            (cleat.screw.length, need + behind),
            None,
            (cleat.wall_half.name,),
        )
    elif packed.most > MOST_PACKING:
        yield _finding(
            report,
            "packing-too-thick",
            Severity.WARNING,
            f"{report.unit.name}: {packed.most:.1f} mm of packing are needed behind it, more than "
            f"{MOST_PACKING:.0f} mm (common practice, no source); screw a batten to the wall and "
            "plane it true, or hang the unit elsewhere",
            (packed.most, MOST_PACKING),
        )
