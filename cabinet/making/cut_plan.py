"""The search for the cut plan of a job: which board each blank comes from, cut by cut.

Leftovers first, then the fewest new sheets, then the most useful rest, then the fewest settings of
the fence. Every plan is sawn again on paper before it is given out, and one that misses a part is
never given out. The plan depends on the unit, the rack, the saw and the seed alone. Lengths in mm.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from cabinet.design import Unit
from cabinet.errors import DesignError
from cabinet.making.blanks import Blank, blanks
from cabinet.making.cut_board import (
    CutBoard,
    JobCuts,
    LaidBlank,
    Rest,
    StockCuts,
    is_worth_keeping,
)
from cabinet.making.cut_proof import prove
from cabinet.making.cut_remarks import remarks
from cabinet.making.guillotine import NO_END, Node, Sheet, kerf_of, to_grid
from cabinet.making.leftover_cuts import LeftoverCuts, LeftoverPlan, LeftoverSearch
from cabinet.making.lie import Fate, Place, Way
from cabinet.making.outline import Rect, Wood, area, bounds, rectangle
from cabinet.making.packing.solve import CutAnswer, plan_cuts
from cabinet.making.patch import patch_of
from cabinet.making.rack import (
    Leftover,
    Rack,
    SheetToBuy,
    default_rack,
    kerf_for,
    pieces_within,
    stocks_of,
)
from cabinet.making.sawing import corner, cuts_of, leaves_in_place, settings, tidied
from cabinet.making.strips import Strip, parted, single, strips
from cabinet.stock import Stock
from cabinet.workshop import Saw

# Rounds of the search for each goal; a job's plan must not depend on the clock.
ROUNDS = 600
# More patches than these for each sheet that they save are more work than the sheet is worth
# (common practice, no source).
PATCHES_FOR_A_SHEET = 3
# Rests count as equally useful if they differ by less than this share of a sheet.
_REST_STEP = 0.05
# Orders of blanks that are tried on odd leftovers.
_ORDERS = 8
# What of the wood that is left over goes back on the rack.
_KEPT = "rest"
# Plans among which the one with the fewest settings is chosen, as long as they are soon found;
# with few blanks there is little to choose.
_TRIES = 6
_FEW_BLANKS = 8

Progress = Callable[[JobCuts], None]


def cut_plan(
    unit: Unit,
    rack: Rack | None = None,
    *,
    saw_tool: Saw | None = None,
    seed: int = 1,
    rounds: int = ROUNDS,
    with_patches: bool = True,
    progress: Progress | None = None,
    stop: Callable[[], bool] | None = None,
) -> JobCuts:
    """Plan how all blanks of a unit are cut.

    Args:
        unit: The unit.
        rack: What there is and what can be bought; None for full sheets of the usual sizes.
        saw_tool: The saw, for its kerf; None for a small workshop's usual one.
        seed: Another seed, another plan of about the same quality.
        rounds: How long each goal is searched for; the plan gets better with more.
        with_patches: Whether patches may be planned where they save a sheet.
        progress: Called with a first plan, and with the last if it is better.
        stop: Asked between steps; True ends the search with what there is.

    Raises:
        SizeError: a negative kerf or seed, or a number of rounds that is none.
        DesignError: a part that is larger than every board, or too few sheets.
    """
    used_rack = rack if rack is not None else default_rack(unit)
    tool = saw_tool if saw_tool is not None else Saw()
    kerf_of(tool.kerf)
    whole = blanks(unit)

    def planned(budget: int, *, with_patch: bool) -> JobCuts:
        made = []
        for stock in stocks_of(unit):
            mine = tuple(blank for blank in whole if blank.stock == stock)
            job = _StockJob(
                stock=stock,
                blanks=mine,
                leftovers=tuple(each.laid() for each in used_rack.leftovers_of(stock)),
                sheets=used_rack.sheets_of(stock),
                kerf=kerf_for(stock, tool.kerf),
                seed=seed,
                rounds=budget,
                stop=stop,
            )
            made.append(job.plan(with_patch=with_patch))
        touched = {b.name for s in made for b in s.boards if b.bought is None}
        plan = JobCuts(
            unit=unit.name,
            stocks=tuple(made),
            stays=tuple(each for each in used_rack.leftovers if each.name not in touched),
            remarks=tuple(remarks(unit, used_rack, stocks_of(unit), touched)),
        )
        prove(plan, whole)
        return plan

    if progress is not None:
        progress(planned(0, with_patch=False))
    plan = planned(rounds, with_patch=with_patches)
    if progress is not None:
        progress(plan)
    return plan


@dataclass(frozen=True, slots=True, kw_only=True)
class _StockJob:
    """The job of one stock."""

    stock: Stock
    blanks: tuple[Blank, ...]
    leftovers: tuple[Leftover, ...]
    sheets: tuple[SheetToBuy, ...]
    kerf: float
    seed: int
    rounds: int
    stop: Callable[[], bool] | None

    def plan(self, *, with_patch: bool) -> StockCuts:
        """Odd leftovers first, then what is plain together with new sheets."""
        odd = tuple(each for each in self.leftovers if not each.is_plain)
        search = LeftoverSearch(odd, to_grid(self.kerf), self.seed)
        tries = _ORDERS if self.rounds else 1
        first = search.fullest(self.blanks, rounds=tries, stop=self.stop)
        best = self._whole(first)
        if odd:
            best = replace(best, at_least=self._at_least(search, odd, with_patch=with_patch))
        if with_patch and best.new_sheets and odd:
            again = search.fullest(self.blanks, rounds=tries, with_patch=True, stop=self.stop)
            other = self._whole(again)
            saved = best.new_sheets - other.new_sheets
            if saved > 0 and len(other.patches) <= PATCHES_FOR_A_SHEET * saved:
                return replace(other, at_least=best.at_least)
        return best

    def _at_least(
        self, search: LeftoverSearch, odd: Sequence[Leftover], *, with_patch: bool
    ) -> int:
        """How many new sheets any plan takes, by areas: of all, and of what only they can hold."""
        largest = max(s.size[0] * s.size[1] for s in self.sheets)
        plain = [bounds(each.outline) for each in self.leftovers if each.is_plain]
        homeless = 0.0
        for blank in self.blanks:
            length, width = blank.along_grain
            sizes = [(length, width), (width, length)] if blank.may_turn else [(length, width)]
            fits = any(a <= rect.length and b <= rect.width for rect in plain for a, b in sizes)
            if not fits and not search.could_hold(blank, with_patch=with_patch):
                homeless += blank.length * blank.width
        whole = sum(blank.length * blank.width for blank in self.blanks)
        there = sum(float(area(each.outline)) / 1e6 for each in odd)
        there += sum(rect.length * rect.width for rect in plain)
        short = max(homeless, whole - there, 0.0)
        return math.ceil(short / largest - 1e-9)

    def _whole(self, first: LeftoverPlan) -> StockCuts:
        boards = [self._from_leftover(cuts) for cuts in first.boards]
        at_least = 0
        if first.unplaced:
            more, at_least = self._from_sheets(first.unplaced)
            boards += more
        rests = [piece for board in boards for piece in _all_rests(board)]
        return StockCuts(
            stock=self.stock,
            boards=tuple(boards),
            at_least=at_least,
            patches=tuple(
                patch_of(laid.blank, laid.place, verdict.flaw, verdict.why, rests)
                for board in boards
                for laid in board.laid
                for verdict in laid.verdicts
                if verdict.fate is Fate.PATCH
            ),
        )

    def _from_leftover(self, cuts: LeftoverCuts) -> CutBoard:
        laid = tuple(
            LaidBlank(blank=blank, place=found.place, verdicts=found.verdicts)
            for blank in self.blanks
            if (found := cuts.found.get(blank.name)) is not None
        )
        return self._board(cuts.board.name, cuts.board, None, 0.0, cuts.root, laid)

    def _from_sheets(self, left: Sequence[Blank]) -> tuple[list[CutBoard], int]:
        plain = [each for each in self.leftovers if each.is_plain]
        sheets = [*(_leftover_sheet(each) for each in plain), *self._sheets()]
        along = max(sheet.length - 2 * sheet.trim for sheet in sheets)
        one = tuple(single(blank) for blank in left)
        choices = [one]
        # Strips are made only of what fits a board by itself; the search refuses the others.
        together = strips(left, along, self.kerf)
        if len(together) < len(one):
            choices.append(together)
        best: tuple[tuple[int, int, int], list[CutBoard]] | None = None
        at_least = 0
        spent = 0
        for choice in choices:
            for another in range(_TRIES if len(choice) > _FEW_BLANKS else 1):
                fewest = NO_END if best is None else best[0][0]
                try:
                    answer = self._answer(choice, sheets, fewest, self.seed + another)
                except DesignError:
                    if best is None:
                        raise
                    break
                if choice is one:
                    at_least = max(at_least, answer.at_least)
                boards = self._boards(answer, choice)
                worth = self._worth(answer, boards)
                if best is None or worth < best[0]:
                    best = worth, boards
                spent += answer.rounds
                # Fewer settings are worth another try only where all else is as good.
                if worth[:2] > best[0][:2] or 2 * spent >= self.rounds:
                    break
        if best is None:
            raise AssertionError("the blanks one by one were planned")
        return best[1], at_least

    def _answer(
        self, choice: Sequence[Strip], sheets: Sequence[Sheet], fewest: int, seed: int
    ) -> CutAnswer:
        return plan_cuts(
            [strip.piece for strip in choice],
            sheets,
            kerf=self.kerf,
            rounds=self.rounds,
            seed=seed,
            largest_rest=self.rounds > 0,
            rest_on_at_most=fewest,
            stop=self.stop,
        )

    def _worth(self, answer: CutAnswer, boards: Sequence[CutBoard]) -> tuple[int, int, int]:
        """Fewest sheets, then the most useful rest in steps, then the fewest settings."""
        step = max((s.size[0] * s.size[1] for s in self.sheets), default=1.0) * _REST_STEP
        rest = answer.rest[0] * answer.rest[1]
        return answer.new_sheets, -int(rest / step), sum(settings(b.cuts) for b in boards)

    def _sheets(self) -> list[Sheet]:
        return [
            Sheet(
                name=f"{number}: {sheet.title}" if len(self.sheets) > 1 else sheet.title,
                length=sheet.size[0],
                width=sheet.size[1],
                trim=self._trim(sheet),
                count=sheet.count,
            )
            for number, sheet in enumerate(self.sheets, start=1)
        ]

    def _trim(self, sheet: SheetToBuy) -> float:
        """What comes off each edge: of a perforated sheet enough to come between two lines."""
        lines = max((blank.lines for blank in self.blanks), default=0.0)
        if sheet.trim is not None or not lines:
            return sheet.edge_trim
        return float(math.ceil(lines + self.kerf))

    def _boards(self, answer: CutAnswer, choice: Sequence[Strip]) -> list[CutBoard]:
        names = {strip.piece.name: strip for strip in choice}
        sheets = dict(zip([s.name for s in self._sheets()], self.sheets, strict=True))
        plain = {each.name: each for each in self.leftovers if each.is_plain}
        found = []
        number = 0
        for cuts in answer.plan.sheets:
            root = tidied(parted(cuts.root, names))
            leftover = plain.get(cuts.sheet.name)
            bought = None if leftover is not None else sheets[cuts.sheet.name]
            if leftover is None:
                number += 1
                leftover = Leftover(
                    name=f"sheet {number}, {self.stock.title}",
                    stock=self.stock,
                    outline=rectangle(cuts.sheet.length, cuts.sheet.width),
                )
            laid = tuple(self._laid(root, cuts.sheet.trim))
            found.append(self._board(leftover.name, leftover, bought, cuts.sheet.trim, root, laid))
        return found

    def _laid(self, root: Node, trim: float) -> Iterator[LaidBlank]:
        by_name = {blank.name: blank for blank in self.blanks}
        for node, rect in leaves_in_place(root, trim, self.kerf):
            if node.piece:
                blank = by_name[node.piece]
                is_turned = (to_grid(node.length), to_grid(node.width)) != (
                    to_grid(blank.length),
                    to_grid(blank.width),
                )
                yield LaidBlank(blank=blank, place=Place(rect.x, rect.y, Way(is_turned)))

    def _board(
        self,
        name: str,
        board: Leftover,
        bought: SheetToBuy | None,
        trim: float,
        root: Node,
        laid: tuple[LaidBlank, ...],
    ) -> CutBoard:
        wood = Wood(board.outline)
        around = bounds(board.outline)
        rests = []
        for node, rect in leaves_in_place(root, trim, self.kerf):
            if node.is_rest and wood.is_in(rect):
                rests.append(rect)
        left = tuple(_rests(name, board, rests))
        return CutBoard(
            name=name,
            board=board,
            bought=bought,
            trim=trim,
            kerf=self.kerf,
            root=root,
            laid=laid,
            rests=left,
            cuts=cuts_of(
                root,
                name=name,
                kerf=self.kerf,
                trim=trim,
                size=(around.length, around.width),
                wood=wood,
                rests={corner(rest.rect): rest.name for rest in left},
            ),
        )


def _rests(name: str, board: Leftover, rects: Sequence[Rect]) -> Iterator[Rest]:
    """What is left over of a board, with one name for the saw and for the rack."""
    numbers: Counter[str] = Counter()
    for rect in rects:
        pieces = pieces_within(board, rect, _KEPT)
        kept = tuple(piece for piece in pieces if is_worth_keeping(piece.outline))
        kind = _KEPT if kept else "offcut"
        numbers[kind] += 1
        own = f"{kind} {numbers[kind]}"
        yield Rest(
            name=own,
            rect=rect,
            kept=tuple(
                replace(piece, name=f"{own}{piece.name.removeprefix(_KEPT)} of {name}")
                for piece in kept
            ),
        )


def _leftover_sheet(each: Leftover) -> Sheet:
    around = bounds(each.outline)
    return Sheet(
        name=each.name, length=around.length, width=around.width, is_leftover=True, count=1
    )


def _all_rests(board: CutBoard) -> Iterator[Leftover]:
    """All rests of a board, kept or not, from which a plug may come; kept ones first."""
    yield from board.kept
    for rest in board.rests:
        if not rest.kept:
            yield from pieces_within(board.board, rest.rect, f"an offcut of {board.name}")
