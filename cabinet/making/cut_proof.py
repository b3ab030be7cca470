"""The proof of a cut plan: it is sawn again on paper, by its tree and by its list of cuts alone.

Areas are added up in squares of the grid (1e-6 mm2), exactly. Lengths in mm.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from cabinet.errors import DesignError
from cabinet.making.blanks import Blank
from cabinet.making.cut_board import CutBoard, JobCuts
from cabinet.making.guillotine import CutPlan, Piece, Sawn, Sheet, SheetCuts, Spot, saw, to_grid
from cabinet.making.lie import Fate, verdicts
from cabinet.making.outline import Rect, Wood, area
from cabinet.making.sawing import bench


def prove(plan: JobCuts, wanted: Sequence[Blank]) -> None:
    """Saw a plan again on paper.

    Every blank is there once and in its size, lies on its board and on no flaw that it forbids;
    the list of cuts alone frees it; and all areas add up to the boards' exactly.

    Raises:
        DesignError: the plan is none; the message names the board or the blank.
    """
    laid = Counter(each.blank.name for board in plan.boards for each in board.laid)
    asked = Counter(blank.name for blank in wanted)
    if laid != asked:
        wrong = sorted(((asked - laid) + (laid - asked)).elements())
        raise DesignError(
            f"{plan.unit}: the cut plan has {', '.join(wrong)} not just once; every blank must be "
            "cut once",
            part=wrong[0],
            value=laid[wrong[0]],
            limit=asked[wrong[0]],
        )
    for board in plan.boards:
        _prove_tree(board)
        _prove_flaws(board)
        _prove_list(board)
        areas(board)


def _sawn(board: CutBoard) -> Sawn:
    sheet = Sheet(name=board.name, length=board.size[0], width=board.size[1], trim=board.trim)
    pieces = [
        Piece(
            name=each.blank.name,
            length=each.blank.along_grain[0],
            width=each.blank.along_grain[1],
            may_turn=each.blank.may_turn,
        )
        for each in board.laid
    ]
    cuts = SheetCuts(sheet=sheet, root=board.root)
    return saw(CutPlan(kerf=board.kerf, sheets=(cuts,)), pieces)


def _prove_tree(board: CutBoard) -> None:
    spots = {spot.piece: spot for spot in _sawn(board).pieces}
    for each in board.laid:
        if not _is_at(spots[each.blank.name], each.rect):
            raise DesignError(
                f"{each.blank.name}: it does not lie where {board.name} is cut for it",
                part=each.blank.name,
                value=each.rect,
                limit=spots[each.blank.name],
            )


def _is_at(spot: Spot, rect: Rect) -> bool:
    mine = (spot.x, spot.y, spot.length, spot.width)
    its = (rect.x, rect.y, rect.length, rect.width)
    return all(to_grid(a) == to_grid(b) for a, b in zip(mine, its, strict=True))


def _prove_flaws(board: CutBoard) -> None:
    wood = Wood(board.board.outline)
    for each in board.laid:
        if not wood.fills(each.rect):
            raise DesignError(
                f"{each.blank.name}: it reaches out of {board.name}",
                part=each.blank.name,
                value=each.rect,
                limit=board.board.outline,
            )
        for verdict in verdicts(each.blank, each.place, board.board):
            if verdict.fate is Fate.FORBIDDEN or verdict not in each.verdicts:
                raise DesignError(
                    f"{each.blank.name}: it lies on a {verdict.flaw.title} of {board.name} that "
                    f"the plan does not provide for: {verdict.why}",
                    part=each.blank.name,
                    value=verdict.flaw.title,
                    limit=verdict.why,
                )


def _prove_list(board: CutBoard) -> None:
    """What the list frees, and under which name: every blank, and all that is kept."""
    wood = Wood(board.board.outline)
    there = bench(board.name, board.size, board.cuts, kerf=board.kerf, wood=wood)
    wanted = [(each.blank.name, each.rect) for each in board.laid]
    wanted += [(rest.name, rest.rect) for rest in board.rests if rest.kept]
    for name, its in wanted:
        # A board that is cut for nothing but one blank keeps its own name.
        rect = there.get(name, there.get(board.name))
        full = wood.area(its)
        if rect is None or not rect.holds(its) or wood.area(rect) != full:
            raise DesignError(
                f"{name}: the list of cuts of {board.name} does not free it",
                part=name,
                value=rect,
                limit=its,
            )


@dataclass(frozen=True, slots=True)
class Areas:
    """How a board's area is used, in squares of the grid (1e-6 mm2), exact."""

    board: Fraction
    blanks: Fraction
    rests: Fraction
    dust: Fraction
    trim: Fraction


def areas(board: CutBoard) -> Areas:
    """The areas of one board.

    Raises:
        DesignError: they do not add up.
    """
    outline = board.board.outline
    length, width = board.size
    inner = Rect(board.trim, board.trim, length - 2 * board.trim, width - 2 * board.trim)
    sawn = _sawn(board)
    wood = Wood(outline)

    def of(spots: Sequence[Spot]) -> Fraction:
        rects = [Rect(s.x, s.y, s.length, s.width) for s in spots]
        return sum((wood.area(rect) for rect in rects), Fraction(0))

    found = Areas(
        board=area(outline),
        blanks=of(sawn.pieces),
        rests=of(sawn.rests),
        dust=of(sawn.strips),
        trim=area(outline) - wood.area(inner),
    )
    if found.blanks + found.rests + found.dust + found.trim != found.board:
        raise DesignError(
            f"{board.name}: blanks, rests, dust and trimmed edges do not add up to its area",
            part=board.name,
            value=float(found.blanks + found.rests + found.dust + found.trim),
            limit=float(found.board),
        )
    return found
