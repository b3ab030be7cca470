"""The cut plan as plain data for the job file: numbers, texts, lists and dicts. Lengths in mm."""

from __future__ import annotations

from cabinet.making.cut_board import CutBoard, JobCuts, LaidBlank, StockCuts
from cabinet.making.outline import Rect
from cabinet.making.patch import Patch
from cabinet.making.rack import Leftover
from cabinet.making.sawing import Cut
from cabinet.record import Record, plain


def cut_plan_record(plan: JobCuts) -> Record:
    """The plan, stock by stock, with what is left on the rack."""
    return {
        "new_sheets": plan.new_sheets,
        "price": plan.price,
        "fence_settings": plan.settings,
        "fence_settings_at_least": plan.settings_at_least,
        "stocks": [_stock(stock) for stock in plan.stocks],
        "rack_after": [leftover_record(piece) for piece in plan.rack_after],
        "remarks": list(plan.remarks),
    }


def _stock(stock: StockCuts) -> Record:
    return {
        "stock": stock.stock.title,
        "new_sheets": stock.new_sheets,
        "at_least": stock.at_least,
        "is_proven": stock.is_proven,
        "boards": [_board(board) for board in stock.boards],
        "patches": [_patch(patch) for patch in stock.patches],
    }


def _board(board: CutBoard) -> Record:
    return {
        "name": board.name,
        "is_leftover": board.bought is None,
        "price": None if board.bought is None else board.bought.price,
        "outline": plain(board.board.outline),
        "flaws": leftover_record(board.board)["flaws"],
        "kerf": plain(board.kerf),
        "trim": plain(board.trim),
        "blanks": [_laid(laid) for laid in board.laid],
        "cuts": [_cut(cut) for cut in board.cuts],
        "rests": [_rect(rest.rect) for rest in board.rests],
        "kept": [leftover_record(piece) for piece in board.kept],
    }


def leftover_record(leftover: Leftover) -> Record:
    """A leftover as it can be told again: outline, thickness, grain, flaws."""
    return {
        "name": leftover.name,
        "material": leftover.stock.material,
        "nominal_thickness": plain(leftover.stock.nominal),
        "measured_thickness": plain(leftover.thickness),
        "grain": leftover.grain.value,
        "outline": plain(leftover.outline),
        "flaws": [
            {
                "kind": flaw.kind.value,
                "face": flaw.face.value,
                "outline": plain(flaw.outline),
                "depth": plain(flaw.depth),
            }
            for flaw in leftover.flaws
        ],
    }


def _rect(rect: Rect) -> Record:
    return {
        "x": plain(rect.x),
        "y": plain(rect.y),
        "length": plain(rect.length),
        "width": plain(rect.width),
    }


def _laid(laid: LaidBlank) -> Record:
    way = laid.place.way
    return {
        "name": laid.blank.name,
        "parts": list(laid.blank.parts),
        "items": list(laid.blank.items),
        **_rect(laid.rect),
        "is_turned": way.is_turned,
        "is_flipped": way.is_flipped,
        "is_reversed": way.is_reversed,
        "flaws": [
            {"flaw": verdict.flaw.title, "fate": verdict.fate.name.lower(), "why": verdict.why}
            for verdict in laid.verdicts
        ],
    }


def _cut(cut: Cut) -> Record:
    return {
        "number": cut.number,
        "fence": plain(cut.fence),
        "parts_along": cut.axis.value,
        "takes": cut.takes,
        "gives": cut.gives,
        "leaves": cut.leaves,
        "is_trim": cut.is_trim,
        "by_rail": cut.by_rail,
        "dust": _rect(cut.dust),
    }


def _patch(patch: Patch) -> Record:
    return {
        "blank": patch.blank,
        "item": patch.item,
        "face": patch.face,
        "flaw": patch.flaw,
        "why": patch.why,
        "recess": _rect(patch.recess),
        "depth": plain(patch.depth),
        "plug": plain(patch.plug),
        "source": patch.source,
    }
