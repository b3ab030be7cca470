"""The list by cut: fence distance, what is cut, what comes off; and what is left in the end."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from cabinet.making.allowance import RULES
from cabinet.making.cut_board import CutBoard, JobCuts
from cabinet.making.guillotine import Axis
from cabinet.making.outline import sizes_text
from cabinet.making.sawing import Cut, least_settings, settings
from drawings.cut_words import labels, short_name
from drawings.list_piece import ListPiece
from drawings.marks import Anchor
from drawings.number import dimension_text
from drawings.table import Column


def cut_pieces(plan: JobCuts) -> Iterator[ListPiece]:
    """The lists of all boards, then the stock that is used and what is left."""
    names = labels(plan)
    for number, board in enumerate(plan.boards, start=1):
        if board.cuts:
            yield ListPiece(
                heading=f"Board {number}: {short_name(board)}",
                columns=(
                    Column(heading="cut", width=10.0, anchor=Anchor.END),
                    Column(heading="fence", width=17.0, anchor=Anchor.END),
                    Column(heading="way", width=20.0),
                    Column(heading="piece"),
                    Column(heading="comes off"),
                    Column(heading="is left"),
                ),
                rows=tuple(cut_row(board, cut, names) for cut in board.cuts),
            )
    yield ListPiece(
        heading="Boards used",
        columns=(
            Column(heading="board"),
            Column(heading="size, mm"),
            Column(heading="cuts", width=12.0, anchor=Anchor.END),
            Column(heading="fence set", width=28.0),
        ),
        rows=tuple(
            (board.name, sizes_text(board.board.outline), str(len(board.cuts)), _set(board))
            for board in plan.boards
        ),
    )
    left = tuple(
        (piece.name, sizes_text(piece.outline), str(len(piece.flaws))) for piece in plan.rack_after
    )
    if left:
        yield ListPiece(
            heading="The rack when all is cut",
            columns=(
                Column(heading="board"),
                Column(heading="size, mm"),
                Column(heading="flaws", width=12.0, anchor=Anchor.END),
            ),
            rows=left,
        )
    yield ListPiece(heading="Plan", notes=tuple(plan_notes(plan)))
    if any(board.board.flaws for board in plan.boards):
        yield ListPiece(heading="Old damage", notes=RULES)


def _set(board: CutBoard) -> str:
    made, least = settings(board.cuts), least_settings(board.cuts)
    return f"{made} times, proven" if made == least else f"{made} times (at least {least})"


def cut_row(board: CutBoard, cut: Cut, names: Mapping[str, str]) -> tuple[str, ...]:
    """One cut as a row of the list, blanks called as told."""
    if cut.is_trim and board.trim:
        return str(cut.number), dimension_text(cut.fence), _way(cut), "whole board", "edge", "board"
    called = {laid.blank.name: laid.blank.item_name for laid in board.laid}

    def told(name: str) -> str:
        if name == board.name:
            return "board"
        return f"{names[name]} {called[name]}" if name in called else name

    return (
        str(cut.number),
        dimension_text(cut.fence),
        _way(cut),
        told(cut.takes),
        told(cut.gives),
        told(cut.leaves) or "–",
    )


def _way(cut: Cut) -> str:
    """Whether the blade runs along the board's length or across it, and if along a rail."""
    way = "across" if cut.axis is Axis.LENGTH else "along"
    return f"{way}, rail" if cut.by_rail else way


def plan_notes(plan: JobCuts) -> Iterator[str]:
    """What the plan says of itself."""
    for stock in plan.stocks:
        if stock.new_sheets == 0:
            told = "no new sheet"
        else:
            sheets = "sheet" if stock.new_sheets == 1 else "sheets"
            proof = (
                "proven: no plan takes fewer" if stock.is_proven else f"at least {stock.at_least}"
            )
            told = f"{stock.new_sheets} new {sheets} ({proof})"
        yield f"{stock.stock.title}: {told}."
    yield (
        "The fence stands at what comes off; the edge at the fence is the one at the left or at "
        "the foot of the drawing; where no straight edge is there, set out and saw along a rail. "
        "Blanks are marked with their tags as they come off the saw."
    )
    yield from plan.remarks
