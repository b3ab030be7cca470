"""What a part's sheet tells in words: how it lies, what it is cut from, what goes into it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from cabinet.features import Groove, Rebate
from cabinet.frame import UnitBox
from cabinet.making.ripped import RippedPair
from cabinet.part import Board, Part
from cabinet.stock import Grain, Hatching
from cabinet.wording import listed
from drawings.dimensioning import SurfaceNames
from drawings.number import dimension_text
from drawings.plain_stretch import cuts_a_row
from drawings.views import Place, ViewPlan


@dataclass(frozen=True, slots=True, kw_only=True)
class Surroundings:
    """What a part's sheet tells about the rest of the unit.

    Attributes:
        mates: Parts that go into this one's grooves and rebates, by name.
        sheets: Number of the sheet on which a part is drawn, by name.
        boxes: Every part's box in the unit, for the key; empty for no key.
        alike: Names of all parts made from this sheet; the part's own if empty.
        remarks: Further notes, such as which sheet shows the other hand.
        strip: The pair of which it is one half, if both are ripped out of one strip.
        item_name: What it is called on all lists; the part's own name if empty.
    """

    mates: Mapping[str, Part] = field(default_factory=dict)
    sheets: Mapping[str, int] = field(default_factory=dict)
    boxes: Mapping[str, UnitBox] = field(default_factory=dict)
    alike: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()
    strip: RippedPair | None = None
    item_name: str = ""


def part_notes(
    part: Part, plan: ViewPlan, names: SurfaceNames, around: Surroundings, quantity: int
) -> tuple[str, ...]:
    """All notes of a part's sheet, in their order.

    Args:
        part: The part.
        plan: Its views.
        names: What the maker calls each of its surfaces.
        around: What is told about the rest of the unit.
        quantity: How many pieces are made.
    """
    board = part.board
    notes = [_setting_note(board, plan, names)]
    notes += _blank_notes(board, names, around)
    notes += _mate_notes(board, around)
    notes += _show_note(board, names)
    notes += _break_note(board, plan)
    if board.stock.hatching is Hatching.METAL:
        notes.append("Edges are sharp until they are deburred.")
    if len(around.alike) > 1:
        notes.append(f"{quantity} pieces: {listed(around.alike)}.")
    return (*notes, *around.remarks)


def _setting_note(board: Board, plan: ViewPlan, names: SurfaceNames) -> str:
    """Which edges the fence and the stop run against, and how the board lies."""
    fence, stop = names[board.fence], names[board.stop]
    face = names[plan.main.look.surface]
    note = f"Fence: {fence}. Stop: {stop}. Lies with the {face} up"
    if any(view.place is Place.SECOND_FACE for view in plan.others):
        other = names[plan.main.look.surface.opposite]
        return f"{note}, then turned over along its length for the {other}."
    return f"{note}."


def _blank_notes(board: Board, names: SurfaceNames, around: Surroundings) -> list[str]:
    """What the board is cut from, and what is done before it has its size."""
    notes = []
    size = f"{dimension_text(board.length)} × {dimension_text(board.width)}"
    count = {1: "One blank", 2: "Two blanks", 3: "Three blanks", 4: "Four blanks"}[board.layers]
    glued = ", glued face to face" if board.layers > 1 else ""
    pair = around.strip
    if pair is not None:
        rough = " × ".join(dimension_text(v) for v in pair.rough_size)
        other = next(p.name for p in pair.parts if p.name not in around.alike)
        notes.append(
            f"Out of one strip with the {other}: {count[0].lower()}{count[1:]} {rough}{glued}; "
            f"ripped at {pair.bevel.angle:g}°, then cut to {size}."
        )
    elif board.layers > 1:
        rough = " × ".join(dimension_text(v) for v in board.rough_size)
        notes.append(f"{count} {rough}{glued}, then cut to {size}.")
    if board.trims:
        ends = listed([f"{names[trim.edge]} {dimension_text(trim.proud)}" for trim in board.trims])
        finished = board.finished_size
        trimmed = f"{dimension_text(finished.length)} × {dimension_text(finished.width)}"
        notes.append(
            f"Proud when glued: {ends}; trimmed flush to {trimmed}. "
            "Dimensions start at the edges before trimming."
        )
    if board.grain is Grain.WIDTH:
        notes.append("The face grain runs across, along the width.")
    return notes


def _mate_notes(board: Board, around: Surroundings) -> list[str]:
    """What goes into its grooves and rebates."""
    notes = []
    for feature in board.features:
        if not isinstance(feature, Groove | Rebate) or not feature.takes:
            continue
        note = f"{feature.name[:1].upper()}{feature.name[1:]} takes the {feature.takes}"
        mate = around.mates.get(feature.takes)
        called = feature.takes if mate is None else mate.name
        if called in around.sheets:
            note += f", sheet {around.sheets[called]}"
        if mate is not None:
            note += f"; follows from its measured {dimension_text(mate.board.thickness)}"
        notes.append(f"{note}.")
    return notes


def _show_note(board: Board, names: SurfaceNames) -> list[str]:
    """Which surfaces show, in one note: a line more would cost some boards their scale."""
    told = [
        f"{word}: {listed([names[one] for one in surfaces])}."
        for word, surfaces in (
            ("Shows", board.shows),
            ("Behind the doors", board.behind_doors),
        )
        if surfaces
    ]
    return [" ".join(told)] if told else []


def _break_note(board: Board, plan: ViewPlan) -> list[str]:
    """That interrupted views leave something out, and that their figures are true."""
    cut = plan.interruption
    if cut is None:
        return []
    what = "Plain length"
    if cuts_a_row(board, cut):
        what = "Plain length, and holes of the rows at the same pitch,"
    return [
        f"{what} is left out between the zigzag lines. Work to the figures; across a break "
        "the paper cannot be measured."
    ]
