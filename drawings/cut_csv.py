"""The cut plan as CSV: every cut, the stock that is used, and the rack when all is cut."""

from __future__ import annotations

from cabinet.making.cut_board import CutBoard, JobCuts
from cabinet.making.cut_proof import areas
from cabinet.making.outline import area, sizes_text
from drawings.cut_list_sheet import cut_row
from drawings.cut_words import labels
from drawings.lists import csv_text
from drawings.number import number


def saw_cuts_csv(plan: JobCuts) -> str:
    """Every cut in its order: fence distance, what is cut, what comes off, what is left."""
    names = labels(plan)
    rows = [
        [board.name, *cut_row(board, cut, names)] for board in plan.boards for cut in board.cuts
    ]
    return csv_text(["board", "cut", "fence mm", "way", "piece", "comes off", "is left"], rows)


def stock_used_csv(plan: JobCuts) -> str:
    """Every board that is cut: bought or leftover, size, price, and how its area is used."""
    rows = [_used(board) for board in plan.boards]
    heading = ["board", "stock", "bought", "size mm", "price", "area m2", "blanks m2", "rests m2"]
    return csv_text([*heading, "dust and trim m2"], rows)


def _used(board: CutBoard) -> list[str]:
    found = areas(board)
    price = board.bought.price if board.bought is not None else None
    return [
        board.name,
        board.board.stock.title,
        "yes" if board.bought is not None else "no",
        sizes_text(board.board.outline),
        "" if price is None else number(price, 2),
        *(
            number(float(value) / 1e12, 4)
            for value in (found.board, found.blanks, found.rests, found.dust + found.trim)
        ),
    ]


def rack_csv(plan: JobCuts) -> str:
    """The rack when all is cut: what was not touched, and what is left."""
    rows = [
        [
            piece.name,
            piece.stock.material,
            number(piece.stock.nominal, 2),
            number(piece.thickness, 2),
            sizes_text(piece.outline),
            number(float(area(piece.outline)) / 1e12, 4),
            "; ".join(flaw.title for flaw in piece.flaws),
            "; ".join(f"{number(x, 1)} {number(y, 1)}" for x, y in piece.outline),
        ]
        for piece in plan.rack_after
    ]
    heading = ["board", "material", "nominal mm", "measured mm", "size mm", "area m2", "flaws"]
    return csv_text([*heading, "corners mm"], rows)
