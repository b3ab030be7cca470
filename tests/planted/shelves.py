"""Mistakes with shelves and their pins."""

from __future__ import annotations

from dataclasses import replace
from typing import cast

from cabinet.checks.clash import clashes
from cabinet.checks.contact import contacts
from cabinet.checks.level import levels
from cabinet.checks.shelves import shelf_fits
from cabinet.checks.tolerance import stacks
from cabinet.checks.wood import webs
from cabinet.design import Unit
from cabinet.features import Feature, HoleRow
from cabinet.frame import Side, UnitPoint
from cabinet.hardware import Hardware, Rod, Screw
from cabinet.joint import PinRows
from cabinet.motion import Motion
from cabinet.part import Part
from tests.planted.designs import ALL
from tests.planted.edits import (
    batten,
    more_hardware,
    more_parts,
    moved_body,
    plain_shelf,
    refeatured,
    resized,
    shelf_bodies,
    with_board,
    with_hardware,
    with_part,
)
from tests.planted.mistake import Mistake

PLAIN = ("seed cupboard", "bottle store", "glaze cabinet")
DIVIDED = ("seed cupboard", "bottle store", "glaze cabinet")


def _any_shelf(unit: Unit) -> Part:
    """The member of a shelf that lies on its front pins from end to end."""
    names = {
        item.inside[1]
        for item in unit.hardware
        if isinstance(item.body, Rod) and len(item.inside) == 2
    }
    return next(p for p in unit.parts if p.name in names)


def _longer(unit: Unit, more: float) -> Unit:
    return with_part(unit, resized(_any_shelf(unit), Side.RIGHT, more))


def _shorter(unit: Unit, less: float) -> Unit:
    shelf = next(p for p in unit.parts if p.role == "shelf")
    return with_part(unit, resized(shelf, Side.RIGHT, -less))


def _raised(unit: Unit, up: float) -> Unit:
    pins = {item.name for item in unit.hardware}
    names = tuple(name for name in shelf_bodies(unit) if name not in pins)
    return moved_body(unit, names, Side.TOP, up)


def _too_shallow(unit: Unit, less: float) -> Unit:
    """A shelf cut so short from front to back that it misses its back pins."""
    return with_part(unit, resized(plain_shelf(unit), Side.BACK, -less))


def _under_the_top(unit: Unit, gap: float) -> Unit:
    """A shelf set so high that no hand gets in above it."""
    names = shelf_bodies(unit)
    shelf = max((p for p in unit.parts if p.name in names), key=lambda p: p.box.high.z)
    up = unit.by_name["top"].box.low.z - shelf.box.high.z - gap
    return moved_body(unit, names, Side.TOP, up)


def _row(unit: Unit, side: str = "left side") -> HoleRow:
    part = unit.by_name[side]
    return next(
        f for f in part.board.features if isinstance(f, HoleRow) and f.name.startswith("front pin")
    )


def _row_changed(unit: Unit, side: str, **changes: object) -> Unit:
    def changed(feature: Feature) -> Feature:
        return replace(cast("HoleRow", feature), **changes)  # type: ignore[arg-type]

    return refeatured(unit, side, "front pin", changed)


def _row_higher(unit: Unit, off: float) -> Unit:
    row = _row(unit)
    return _row_changed(unit, "left side", first=row.first.beyond(off))


def _row_deeper_in(unit: Unit, off: float) -> Unit:
    row = _row(unit)
    return _row_changed(unit, "left side", line=row.line.beyond(off))


def _row_from_the_other_end(unit: Unit, off: float) -> Unit:
    row = _row(unit)
    first = replace(row.first, datum=row.first.datum.opposite, distance=row.first.distance + off)
    return _row_changed(unit, "left side", first=first)


def _row_with_another_pitch(unit: Unit, pitch: float) -> Unit:
    return _row_changed(unit, "left side", pitch=pitch)


def _holes_left_out(unit: Unit, count: float) -> Unit:
    return _row_changed(unit, "left side", count=_row(unit).count - int(count))


def _opposite_in_the_divider(unit: Unit, off: float) -> Unit:
    """Both rows of a thin divider bored at one place, or nearly."""
    divider = next(p for p in unit.parts if p.role == "divider")
    rows = [
        f for f in divider.board.features if isinstance(f, HoleRow) and f.name.startswith("front")
    ]
    one, other = rows
    spoiled = replace(other, line=one.line.beyond(off))
    features = tuple(spoiled if f == other else f for f in divider.board.features)
    return with_part(unit, with_board(divider, replace(divider.board, features=features)))


def _bored_too_deep(unit: Unit, left: float) -> Unit:
    side = unit.by_name["left side"]
    return _row_changed(unit, "left side", depth=side.board.thickness - left)


def _row_on_the_edge(unit: Unit, inset: float) -> Unit:
    row = _row(unit)
    return _row_changed(unit, "left side", line=replace(row.line, distance=inset))


def _rows_to_the_top(unit: Unit, gap: float) -> Unit:
    """More holes than a shelf can use, the uppermost so far below the top: it meets the top."""
    made = unit
    _, _, shelf = _bay(unit)
    joint = next(
        j
        for j in unit.joints
        if isinstance(j, PinRows)
        and unit.by_name[j.left].box.high.x <= shelf.box.low.x
        and unit.by_name[j.right].box.low.x >= shelf.box.high.x
    )
    room = unit.by_name["top"].box.low.z - joint.first - (joint.count - 1) * joint.pitch - gap
    more, up = divmod(room, joint.pitch)
    for name in joint.parts:
        part = made.by_name[name]
        features = tuple(
            replace(f, count=f.count + int(more), first=f.first.beyond(up))
            if isinstance(f, HoleRow) and f.name.endswith(f"pin row{joint.label}")
            else f
            for f in part.board.features
        )
        made = with_part(made, with_board(part, replace(part.board, features=features)))
    return made


def _thick_pin(unit: Unit, more: float) -> Unit:
    pin = _pin(unit)
    body = cast("Rod", pin.body)
    return with_hardware(unit, pin, replace(pin, body=replace(body, diameter=5 + more)))


def _pin_too_deep(unit: Unit, more: float) -> Unit:
    pin = _pin(unit)
    return with_hardware(unit, pin, replace(pin, at=pin.at.moved(pin.axis, more)))


def _pin_in_another_hole(unit: Unit, holes: float) -> Unit:
    pin = _pin(unit)
    return with_hardware(unit, pin, replace(pin, at=pin.at.moved(Side.BOTTOM, 32.0 * holes)))


def _pin(unit: Unit) -> Hardware:
    return next(item for item in unit.hardware if item.name.startswith("pin front left"))


def _screw_by_the_pins(unit: Unit, gap: float) -> Unit:
    """A screw from outside into the side, beside a hole of the front row."""
    side = unit.by_name["left side"]
    joint = next(j for j in unit.joints if isinstance(j, PinRows))
    y = dict(joint.lines)["front"]
    screw = Hardware(
        name="screw through the side",
        article="countersunk wood screw 4 × 30",
        body=Screw(diameter=4.0, length=30.0, head_diameter=8.0),
        at=UnitPoint(side.box.low.x, y + 2.5 + 2.0 + gap, joint.first + joint.pitch),
        axis=Side.RIGHT,
        inside=("left side",),
    )
    return more_hardware(unit, screw)


def _bay(unit: Unit) -> tuple[float, float, Part]:
    """X of the first bay that has a shelf, and the shelf."""
    shelf = _any_shelf(unit)
    joint = next(
        j
        for j in unit.joints
        if isinstance(j, PinRows)
        and unit.by_name[j.left].box.high.x <= shelf.box.low.x
        and unit.by_name[j.right].box.low.x >= shelf.box.high.x
    )
    return unit.by_name[joint.left].box.high.x, unit.by_name[joint.right].box.low.x, shelf


def _front_of(unit: Unit, shelf: Part) -> float:
    """Y of a shelf's front, its lipping or frame included."""
    names = next(names for names in _shelves(unit) if shelf.name in names)
    return min(p.box.low.y for p in unit.parts if p.name in names)


def _shelves(unit: Unit) -> tuple[tuple[str, ...], ...]:
    return tuple(move.parts for move in unit.moves if move.motion is Motion.SHELF)


def _post(unit: Unit, wide: float) -> Unit:
    """A post at the front of the bay that narrows the way in, from base to top."""
    left, _, shelf = _bay(unit)
    low, high = unit.by_name["base"].box.high.z, unit.by_name["top"].box.low.z
    y = _front_of(unit, shelf) - 13.0
    return more_parts(unit, batten("post", (left, y, low), (wide, high - low)))


def _closed_front(unit: Unit, gap: float) -> Unit:
    """A fixed board across the whole front of the bay but for a slit above."""
    left, right, shelf = _bay(unit)
    low, high = unit.by_name["base"].box.high.z, unit.by_name["top"].box.low.z
    y = _front_of(unit, shelf) - 13.0
    size = right - left, high - low - gap
    return more_parts(unit, batten("front board", (left, y, low), size))


MISTAKES = (
    Mistake(
        kind="a shelf one millimetre too long",
        expected_rule="tolerance-chain",
        check=stacks,
        plant=_longer,
        sizes=(1.0, 1.5, 2.1),
        designs=ALL,
    ),
    Mistake(
        kind="a shelf too long by its play",
        expected_rule="clash",
        check=clashes,
        plant=_longer,
        sizes=(1.4, 2.9),
        designs=ALL,
    ),
    Mistake(
        kind="a shelf so short that it slides off its pins",
        expected_rule="tolerance-chain",
        check=stacks,
        plant=_shorter,
        sizes=(3.0, 5.0, 6.5),
        designs=ALL,
    ),
    Mistake(
        kind="a shelf that ends before its pins",
        expected_rule="no-contact",
        check=contacts,
        plant=_shorter,
        sizes=(7.0, 21.0),
        designs=ALL,
    ),
    Mistake(
        kind="a shelf that ends before its back pins",
        expected_rule="no-contact",
        check=contacts,
        plant=_too_shallow,
        sizes=(67.0, 91.0),
        designs=PLAIN,
    ),
    Mistake(
        kind="a shelf above its pins",
        expected_rule="no-contact",
        check=contacts,
        plant=_raised,
        sizes=(0.3, 2.0),
        designs=ALL,
    ),
    Mistake(
        kind="a shelf under the top without room for a hand",
        expected_rule="no-headroom",
        check=shelf_fits,
        plant=_under_the_top,
        sizes=(11.0, 32.0, 57.0),
        designs=ALL,
    ),
    Mistake(
        kind="a hole row bored from the wrong end",
        expected_rule="rows-not-level",
        check=levels,
        plant=_row_from_the_other_end,
        sizes=(1.0, 3.5),
        designs=ALL,
    ),
    Mistake(
        kind="a hole row begun too high",
        expected_rule="rows-not-level",
        check=levels,
        plant=_row_higher,
        sizes=(0.4, 1.0, 16.0),
        designs=ALL,
    ),
    Mistake(
        kind="a hole row on another line than the one that faces it",
        expected_rule="rows-not-level",
        check=levels,
        plant=_row_deeper_in,
        sizes=(0.4, 1.0, 9.0),
        designs=ALL,
    ),
    Mistake(
        kind="a jig with another pitch",
        expected_rule="rows-not-level",
        check=levels,
        plant=_row_with_another_pitch,
        sizes=(25.0, 31.7),
        designs=ALL,
    ),
    Mistake(
        kind="holes left out of a row",
        expected_rule="rows-not-level",
        check=levels,
        plant=_holes_left_out,
        sizes=(1, 3),
        designs=ALL,
    ),
    Mistake(
        kind="pins opposite in a thin divider",
        expected_rule="thin-web",
        check=webs,
        plant=_opposite_in_the_divider,
        sizes=(0.0, 2.0, 5.0),
        designs=DIVIDED,
    ),
    Mistake(
        kind="pin holes bored nearly through",
        expected_rule="thin-web",
        check=webs,
        plant=_bored_too_deep,
        sizes=(1.1, 2.4),
        designs=ALL,
    ),
    Mistake(
        kind="pin holes at the edge of a side",
        expected_rule="thin-web",
        check=webs,
        plant=_row_on_the_edge,
        sizes=(3.1, 5.0),
        designs=ALL,
    ),
    Mistake(
        kind="holes so high that a shelf does not fit there",
        expected_rule="shelf-height",
        check=shelf_fits,
        plant=_rows_to_the_top,
        sizes=(6.0, 15.0),
        designs=ALL,
    ),
    Mistake(
        kind="pins thicker than their holes",
        expected_rule="clash",
        check=clashes,
        plant=_thick_pin,
        sizes=(0.6, 1.0, 3.0),
        designs=ALL,
    ),
    Mistake(
        kind="a pin longer than its hole is deep",
        expected_rule="clash",
        check=clashes,
        plant=_pin_too_deep,
        sizes=(0.5, 2.0),
        designs=ALL,
    ),
    Mistake(
        kind="a pin in another hole than the three others",
        expected_rule="no-contact",
        check=contacts,
        plant=_pin_in_another_hole,
        sizes=(1, 2),
        designs=ALL,
    ),
    Mistake(
        kind="a screw beside a pin's hole",
        expected_rule="pin-meets-screw",
        check=shelf_fits,
        plant=_screw_by_the_pins,
        sizes=(-4.0, 0.7, 2.4),
        designs=ALL,
    ),
    Mistake(
        kind="a post before the bay that no shelf passes",
        expected_rule="shelf-shut-out",
        check=shelf_fits,
        plant=_post,
        sizes=(287.0, 223.0),
        designs=("seed cupboard", "glaze cabinet"),
    ),
    Mistake(
        kind="a front board that shuts a shelf out",
        expected_rule="shelf-shut-out",
        check=shelf_fits,
        plant=_closed_front,
        sizes=(5.0, 11.0),
        designs=ALL,
    ),
)
