"""How a cut plan is told in words, the same on drawings, lists and tags."""

from __future__ import annotations

from collections import Counter

from cabinet.making.allowance import Need
from cabinet.making.blanks import Blank
from cabinet.making.cut_board import CutBoard, JobCuts, LaidBlank
from cabinet.making.outline import sizes_text
from cabinet.making.rack import Leftover


def as_sawn(board: CutBoard) -> list[LaidBlank]:
    """The blanks of a board in the order in which they come off."""
    order = {cut.gives: (cut.number, 0) for cut in board.cuts}
    order |= {cut.leaves: (cut.number, 1) for cut in board.cuts if cut.leaves}
    return sorted(
        board.laid, key=lambda laid: (order.get(laid.blank.name, (0, 0)), laid.blank.name)
    )


def labels(plan: JobCuts) -> dict[str, str]:
    """What each blank is called on plan, lists and tag: its item, numbered if there are several.

    The number counts over all boards, so that no two blanks are called alike, in the order in
    which they come off the saw; layers in their own, so that the first of a pair is the first on
    its tag.

    Args:
        plan: The plan.
    """
    blanks = [laid.blank for board in plan.boards for laid in as_sawn(board)]
    times = Counter(blank.items for blank in blanks)
    met: Counter[tuple[int, ...]] = Counter()
    found = {}
    for blank in sorted(blanks, key=lambda blank: blank.layer):
        met[blank.items] += 1
        told = "+".join(map(str, blank.items))
        found[blank.name] = f"{told}.{met[blank.items]}" if times[blank.items] > 1 else told
    return found


def board_title(board: CutBoard) -> str:
    """A board with its size over all."""
    kind = "" if board.bought is not None else ", leftover"
    return f"{short_name(board)}{kind}, {sizes_text(board.board.outline)}"


def way_words(board: CutBoard, laid: LaidBlank) -> str:
    """How a blank lies on a board with flaws; on a clean one, which of its faces will show."""
    if not board.board.flaws:
        return _shown_words(laid.blank)
    way = laid.place.way
    face = "face B up" if way.is_flipped else "face A up"
    turned = ", turned" if way.is_reversed else ""
    across = ", across" if way.is_turned else ""
    return f"{face}{turned}{across}"


def _shown_words(blank: Blank) -> str:
    """Which of a blank's faces will show, and which only while a door is open."""
    inside = [face.value.split()[1] for face in blank.behind_doors]
    told = {
        keep.what.split()[1]
        for keep in blank.keep_outs
        if keep.need is Need.SHOWS and 0.0 <= keep.box.low[2] <= blank.thickness
    }
    shown = sorted(told - set(inside))
    words = {0: [], 1: [f"face {''.join(shown)}"]}.get(len(shown), ["both faces"])
    if inside:
        words.append("inside " + (inside[0] if len(inside) == 1 else "A, B"))
    return "; ".join(words) or "no face"


def short_rest(piece: Leftover) -> str:
    """What goes back on the rack, without the board that it comes from, which stands above it."""
    return piece.name.split(" of ")[0]


def short_name(board: CutBoard) -> str:
    """A board's name without its stock, which stands beside it."""
    return board.name.split(",")[0] if board.bought is not None else board.name
