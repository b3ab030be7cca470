"""How a cut plan is told in words, the same on drawings, lists and tags."""

from __future__ import annotations

from cabinet.making.allowance import Need
from cabinet.making.cut_board import CutBoard, LaidBlank
from cabinet.making.outline import sizes_text


def board_title(board: CutBoard) -> str:
    """A board with its size over all."""
    kind = "" if board.bought is not None else ", leftover"
    return f"{short_name(board)}{kind}, {sizes_text(board.board.outline)}"


def way_words(board: CutBoard, laid: LaidBlank) -> str:
    """How a blank lies on a board with flaws; on a clean one, which of its faces will show."""
    if not board.board.flaws:
        shown = sorted({k.what.split()[1] for k in laid.blank.keep_outs if k.need is Need.SHOWS})
        return {0: "none", 1: f"face {''.join(shown)}"}.get(len(shown), "both faces")
    way = laid.place.way
    face = "face B up" if way.is_flipped else "face A up"
    turned = ", turned" if way.is_reversed else ""
    across = ", across" if way.is_turned else ""
    return f"{face}{turned}{across}"


def short_name(board: CutBoard) -> str:
    """A board's name without its stock, which stands beside it."""
    return board.name.split(",")[0] if board.bought is not None else board.name
