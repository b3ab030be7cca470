"""The cut plan of a job: fewest new sheets, then the largest rest in one piece.

Leftovers are used first. Goals are set one after another: all pieces on one sheet fewer, until
that is proven impossible or the rounds are spent; then on the same number of sheets of less
area; then with one sheet shortened by a strip, which is the rest that is kept.

A plan depends on the pieces, the sheets, the kerf, the seed and the number of rounds alone. If a
limit of seconds or a call to stop ends the search early, it depends on the clock as well.
"""

from __future__ import annotations

import time
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import combinations_with_replacement

from cabinet.errors import DesignError
from cabinet.making.guillotine import (
    NO_END,
    CutPlan,
    Piece,
    Sheet,
    SheetCuts,
    from_grid,
    kerf_of,
    saw,
    to_grid,
)
from cabinet.making.packing import speed
from cabinet.making.packing.bounds import is_short_of_room, sheets_needed
from cabinet.making.packing.goal import Goal, Size
from cabinet.making.packing.layout import Layout, rests
from cabinet.making.packing.recombine import Pool
from cabinet.making.packing.strip import StripSearch
from cabinet.making.packing.subsets import MOST_PIECES, fit_together
from cabinet.quantity import finite, whole, written

# Rounds for each goal. A goal that can be reached with some fifty pieces is mostly reached in a
# tenth of these (measured on generated instances; tests/benchmarks/cut_plan.py).
ROUNDS = 20_000
# A goal of a larger rest may be given up sooner: it is a matter of a strip more or less.
ROUNDS_FOR_REST = 2_000
# With fewer pieces than these it is given up sooner still, in proportion.
PIECES_FOR_ALL_ROUNDS = 80
# Rounds before a small job is put to the proof; what is easily reached needs none.
ROUNDS_BEFORE_PROOF = 100
# Rounds after which a search for the same goal first begins anew, with other random numbers;
# every further spell is as many times as long as all before it.
ROUNDS_IN_A_SPELL = 10_000
LONGER = 3
# Rounds after which no choice is made any more among the sheets that were seen: what has not come
# of the first three comes sooner of searching on (measured on generated instances).
ROUNDS_RECOMBINED = 160_000
# Rounds for laying pieces on one sheet on which they have lain before.
ROUNDS_FOR_ONE_SHEET = 5_000
# With more pieces than these the choice among sheets of several states takes too long.
MOST_RECOMBINED = 150
# Nor is it made with more pieces to a sheet than these: with thirty it took half of the time and
# two tries hardly ever come upon sheets that go together.
MOST_TO_A_SHEET = 15
# How long the search may go on before it looks at the clock, s.
LONGEST_WITHOUT_LOOK = 0.02
# Other sheet sizes tried for one number of sheets.
MOST_MIXES = 12

Progress = Callable[["CutAnswer"], None]


@dataclass(frozen=True, slots=True, kw_only=True)
class CutAnswer:
    """A plan and how good it is.

    Attributes:
        plan: The plan; it has been sawn on paper.
        new_sheets: How many sheets it takes that are not leftovers.
        at_least: How many any plan takes.
        rest: Length and width of the largest rest, mm; (0, 0) if nothing is left over.
        rounds: How many rounds were searched.
    """

    plan: CutPlan
    new_sheets: int
    at_least: int
    rest: tuple[float, float]
    rounds: int

    @property
    def is_proven(self) -> bool:
        """Whether no plan takes fewer new sheets."""
        return self.new_sheets == self.at_least

    @property
    def gap(self) -> int:
        """How many sheets a better plan could save at most."""
        return self.new_sheets - self.at_least


def plan_cuts(
    pieces: Sequence[Piece],
    sheets: Sequence[Sheet],
    *,
    kerf: float,
    rounds: int = ROUNDS,
    seconds: float = float("inf"),
    clock: Callable[[], float] = time.monotonic,
    seed: int = 1,
    largest_rest: bool = True,
    rest_on_at_most: int = NO_END,
    progress: Progress | None = None,
    stop: Callable[[], bool] | None = None,
) -> CutAnswer:
    """Find a plan for cutting all pieces from the sheets.

    Args:
        pieces: What is to be cut.
        sheets: What it can be cut from: leftovers and kinds of new sheets.
        kerf: Width of the strip that a cut turns into dust, mm.
        rounds: How long each goal is searched for; the plan gets better with more.
        seconds: After how long the search ends at the latest, s. The first plan is always made.
        clock: What tells the seconds.
        seed: Another seed, another plan of about the same quality.
        largest_rest: Whether the largest rest is looked for once the sheets are as few as found.
        rest_on_at_most: It is not looked for if they are more than this.
        progress: Called with every better answer, the first one within a second for small jobs.
        stop: Asked between rounds; True ends the search with what there is.

    Raises:
        SizeError: a negative kerf or seed, or a number of rounds or seconds that is none.
        DesignError: nothing to cut, nothing to cut from, two pieces or sheets of one name, a
            piece that is larger than every sheet, or too few sheets.
    """
    grid_kerf = kerf_of(kerf)
    whole("cut plan", "rounds", rounds, 0, 10**9)
    whole("cut plan", "seed", seed, 0, 10**9)
    if seconds != float("inf"):
        finite("cut plan", "seconds", seconds, unit="s")
    job = _Job.of(pieces, sheets, grid_kerf)
    hunt = _Hunt(
        job=job,
        kerf=kerf,
        rounds=rounds,
        seed=seed,
        clock=clock,
        end=clock() + seconds,
        progress=progress,
        stop=stop,
    )
    hunt.begin()
    hunt.fewer_sheets()
    hunt.less_area()
    if largest_rest and hunt.answer.new_sheets <= rest_on_at_most:
        hunt.larger_rest()
    return replace(hunt.answer, rounds=hunt.spent)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Job:
    """A job on the grid: sizes with the kerf included."""

    pieces: tuple[Piece, ...]
    sizes: tuple[Size, ...]
    turns: tuple[bool, ...]
    leftovers: tuple[Sheet, ...]
    kinds: tuple[Sheet, ...]  # of new sheets, largest first
    kerf: int

    @classmethod
    def of(cls, pieces: Sequence[Piece], sheets: Sequence[Sheet], kerf: int) -> _Job:
        """Check that the job can be done at all, and put it on the grid."""
        for what, names in (
            ("piece", [p.name for p in pieces]),
            ("sheet", [s.name for s in sheets]),
        ):
            if not names:
                raise DesignError(
                    f"cut plan: there is no {what}; at least one is needed",
                    part="cut plan",
                    value=0,
                    limit=1,
                )
            name, number = Counter(names).most_common(1)[0]
            if number > 1:
                raise DesignError(
                    f"{name}: {number} {what}s have this name; each must have its own",
                    part=name,
                    value=number,
                    limit=1,
                )
        job = cls(
            pieces=tuple(pieces),
            sizes=tuple((to_grid(p.length) + kerf, to_grid(p.width) + kerf) for p in pieces),
            turns=tuple(p.may_turn for p in pieces),
            leftovers=tuple(
                s for s in sheets if s.is_leftover for _ in range(min(s.count, len(pieces)))
            ),
            kinds=tuple(
                sorted((s for s in sheets if not s.is_leftover), key=lambda s: (-_area(s), s.name))
            ),
            kerf=kerf,
        )
        for piece, size in zip(pieces, job.sizes, strict=True):
            if not any(_holds(job.size(s), size, turn=piece.may_turn) for s in sheets):
                raise _too_large(piece, sheets)
        return job

    def size(self, sheet: Sheet) -> Size:
        """Length and width of a sheet within its edges, kerf included."""
        length, width = sheet.usable
        return length + self.kerf, width + self.kerf

    @property
    def area(self) -> int:
        """Area of all pieces."""
        return sum(length * width for length, width in self.sizes)

    def goal(self, sheets: Sequence[Sheet], seed: int) -> Goal:
        """A search for a place for every piece on these sheets."""
        return Goal(self.sizes, self.turns, [self.size(s) for s in sheets], seed)

    def at_least(self) -> int:
        """How many new sheets any plan takes."""
        if not self.kinds:
            return 0
        # Sheets that would be as long and as wide as any of them hold what any of them holds.
        largest = (
            max(self.size(s)[0] for s in self.kinds),
            max(self.size(s)[1] for s in self.kinds),
        )
        spared = 0
        for sheet in self.leftovers:
            inside = [
                a * b
                for (a, b), turn in zip(self.sizes, self.turns, strict=True)
                if _holds(self.size(sheet), (a, b), turn=turn)
            ]
            spared += min(sum(inside), self.size(sheet)[0] * self.size(sheet)[1])
        # By areas, the largest sheets that there are.
        by_area = 0
        left = self.area - spared
        for sheet in self.kinds:
            if left <= 0:
                break
            length, width = self.size(sheet)
            number = min(sheet.count, -(-left // (length * width)))
            by_area += number
            left -= number * length * width
        if not self.leftovers:
            return max(by_area, sheets_needed(self.sizes, self.turns, largest))
        there = [self.size(s) for s in self.leftovers]
        least = by_area
        while least < len(self.pieces) and is_short_of_room(
            self.sizes, self.turns, [*there, *[largest] * least]
        ):
            least += 1
        return least


def _area(sheet: Sheet) -> int:
    length, width = sheet.usable
    return length * width


def _holds(sheet: Size, piece: Size, *, turn: bool) -> bool:
    upright = piece[0] <= sheet[0] and piece[1] <= sheet[1]
    return upright or (turn and piece[1] <= sheet[0] and piece[0] <= sheet[1])


def _too_large(piece: Piece, sheets: Sequence[Sheet]) -> DesignError:
    there = tuple((from_grid(s.usable[0]), from_grid(s.usable[1])) for s in sheets)
    listed = ", ".join(
        f"{written(length)} x {written(width)} ({sheet.name})"
        for (length, width), sheet in zip(there, sheets, strict=True)
    )
    return DesignError(
        f"{piece.name}: {written(piece.length)} x {written(piece.width)} mm"
        f"{', either way,' if piece.may_turn else ', not turned,'} fits on no sheet; "
        f"within the trimmed edges there are {listed} mm; make it smaller, or give the rack a "
        "larger sheet (SheetToBuy)",
        part=piece.name,
        value=(piece.length, piece.width),
        limit=there,
    )


@dataclass(kw_only=True)
class _Hunt:
    """The search: the best answer so far, and one goal after another."""

    job: _Job
    kerf: float
    rounds: int
    seed: int
    clock: Callable[[], float]
    end: float
    progress: Progress | None
    stop: Callable[[], bool] | None
    answer: CutAnswer = field(init=False)
    used: tuple[Sheet, ...] = field(init=False, default=())
    at_least: int = field(init=False, default=0)
    spent: int = field(init=False, default=0)
    is_fast: bool = field(init=False, default=False)
    slow_until: float = field(init=False, default=0.0)

    def begin(self) -> None:
        """Make the first plan: place largest first, and open a new sheet when none is left."""
        self.slow_until = time.thread_time() + speed.patience()
        self.at_least = self.job.at_least()
        self.is_fast = speed.is_loaded()
        best: tuple[tuple[int, int], Goal, list[Sheet]] | None = None
        for rule, sort in ((0, 0), (1, 0), (2, 1)):
            goal, sheets = self._open_as_needed(rule, sort)
            if goal.is_met:
                used = [s for b, s in enumerate(sheets) if goal.is_used(b)]
                worth = _worth(used)
                if best is None or worth < best[0]:
                    best = worth, goal, sheets
        if best is None:
            best = self._rack_is_short()
        self._keep(self._cuts(best[1], best[2]))

    def _open_as_needed(self, rule: int, sort: int) -> tuple[Goal, list[Sheet]]:
        job = self.job
        sheets = list(job.leftovers)
        for kind in job.kinds:
            sheets += [kind] * min(kind.count, len(job.pieces))
        goal = job.goal(sheets, self.seed)
        if self.is_fast:
            goal.compile()
        for b in range(len(job.leftovers), len(sheets)):
            goal.close(b)
        goal.fill(rule, sort)
        useless: Sheet | None = None
        for b in range(len(job.leftovers), len(sheets)):
            if goal.is_met:
                break
            if sheets[b] is useless:
                continue
            goal.open(b)
            goal.fill(rule, sort)
            if not goal.is_used(b):
                goal.close(b)
                useless = sheets[b]
        return goal, sheets

    def _rack_is_short(self) -> tuple[tuple[int, int], Goal, list[Sheet]]:
        """Search on all sheets that there are, since placing largest first ran out of them."""
        job = self.job
        sheets = list(job.leftovers)
        for kind in job.kinds:
            sheets += [kind] * min(kind.count, len(job.pieces))
        goal = job.goal(sheets, self.seed)
        goal.fill(0, 0)
        if not goal.is_met and not self._advance(goal, self.rounds):
            out = [job.pieces[k] for k in goal.state().out[: goal.number_out]]
            have = sum(_area(s) for s in sheets) / 1e12
            raise DesignError(
                f"{out[0].name}: no place was found for it; the sheets at hand have "
                f"{have:.3f} m² and the pieces with their kerfs {job.area / 1e12:.3f} m², so more "
                "sheets are needed",
                part=out[0].name,
                value=tuple(p.name for p in out),
                limit=len(sheets),
            )
        return (0, 0), goal, sheets

    def _over(self) -> bool:
        return self.clock() >= self.end or (self.stop is not None and self.stop())

    def _reach(self, sheets: Sequence[Sheet], rounds: int) -> tuple[SheetCuts, ...] | None:
        """Search for a place for every piece on these sheets; None if none was found.

        A search that has not got there in a spell is seldom near, so another one is begun; and
        of the sheets that all of them came across, some may hold every piece between them.
        Luck may take long, nobody knows how long, so every spell is longer than those before.
        """
        sizes = [self.job.size(s) for s in sheets]
        number = len(self.job.pieces)
        most = min(MOST_RECOMBINED, MOST_TO_A_SHEET * len(sheets))
        pool = None
        if len(sheets) > 1 and len({*sizes}) == 1 and number <= most:
            pool = Pool(number, len(sheets))
        spent = 0
        while True:
            goal = Goal(
                self.job.sizes, self.job.turns, sizes, self.seed + spent // ROUNDS_IN_A_SPELL
            )
            spell = min(max(ROUNDS_IN_A_SPELL, LONGER * spent), rounds - spent)
            if pool is not None and rounds > ROUNDS_IN_A_SPELL:
                goal.take_notes(spell)
            if self._advance(goal, spell):
                return self._cuts(goal, sheets)
            spent += spell
            if spent >= rounds or self._over():
                return None
            if pool is not None:
                pool.add(goal.notes)
                found = self._recombined(pool, sheets)
                if found is not None:
                    return found
                if spent >= ROUNDS_RECOMBINED:
                    pool = None

    def _recombined(self, pool: Pool, sheets: Sequence[Sheet]) -> tuple[SheetCuts, ...] | None:
        """Lay all pieces on sheets that were seen in several states; None if none will do."""
        job = self.job
        left = set(range(len(job.pieces)))
        found: list[SheetCuts] = []
        for sheet, members in zip(sheets, pool.choose(self.end - self.clock()), strict=False):
            mine = [k for k in members if k in left]
            left -= set(mine)
            goal = Goal(
                [job.sizes[k] for k in mine],
                [job.turns[k] for k in mine],
                [job.size(sheet)],
                self.seed,
            )
            if not self._advance(goal, ROUNDS_FOR_ONE_SHEET):
                return None
            found += self._cuts(goal, [sheet], [job.pieces[k] for k in mine])
        return None if left else tuple(found)

    def _advance(self, goal: Goal, rounds: int) -> bool:
        """Search for so many rounds; return whether the goal was reached."""
        if self.is_fast:
            goal.compile()
        chunk = 1
        while rounds > goal.rounds and not self._over():
            started = time.monotonic()
            before = goal.rounds
            is_met = goal.advance(min(chunk, rounds - before))
            self.spent += goal.rounds - before
            if is_met:
                return True
            if not self.is_fast and time.thread_time() > self.slow_until:
                # Whether it helps or not, it is tried once.
                self.is_fast = goal.compile()
                self.slow_until = float("inf")
            chunk = (
                chunk * 2
                if time.monotonic() - started < LONGEST_WITHOUT_LOOK
                else max(1, chunk // 2)
            )
        return goal.is_met

    def _cuts(
        self, goal: Goal, sheets: Sequence[Sheet], pieces: Sequence[Piece] | None = None
    ) -> tuple[SheetCuts, ...]:
        """How the sheets that are used are cut in a goal that was reached."""
        names = [p.name for p in (pieces if pieces is not None else self.job.pieces)]
        layout = Layout(goal.state(), names, self.job.kerf)
        return tuple(
            SheetCuts(sheet=s, root=layout.node(b, self.job.size(s)))
            for b, s in enumerate(sheets)
            if goal.is_used(b)
        )

    def _keep(self, cuts: tuple[SheetCuts, ...]) -> None:
        """Make the answer from the cuts of all sheets."""
        self.used = tuple(c.sheet for c in cuts)
        plan = CutPlan(kerf=self.kerf, sheets=cuts)
        saw(plan, self.job.pieces)
        self._tell(plan)

    def _tell(self, plan: CutPlan) -> None:
        largest = max(
            (rest for cuts in plan.sheets for rest in rests(cuts.root)),
            key=lambda rest: rest.length * rest.width,
            default=None,
        )
        self.answer = CutAnswer(
            plan=plan,
            new_sheets=sum(not s.sheet.is_leftover for s in plan.sheets),
            at_least=self.at_least,
            rest=(largest.length, largest.width) if largest else (0.0, 0.0),
            rounds=self.spent,
        )
        if self.progress is not None:
            self.progress(self.answer)

    @property
    def _new(self) -> list[Sheet]:
        return [s for s in self.used if not s.is_leftover]

    def _mixes(self, number: int, below: int | None = None) -> Iterator[tuple[Sheet, ...]]:
        """Choices of new sheets that could do by their area; fewest doubts first."""
        job = self.job
        spared = sum(_area(s) for s in job.leftovers)
        found = []
        for mix in combinations_with_replacement(job.kinds, number):
            if any(number_used > s.count for s, number_used in Counter(mix).items()):
                continue
            whole_area = sum(job.size(s)[0] * job.size(s)[1] for s in mix)
            paid = sum(s.area for s in mix)
            if whole_area + spared < job.area or (below is not None and paid >= below):
                continue
            found.append((-whole_area, mix))
            if len(found) >= 50 * MOST_MIXES:
                break
        found.sort(key=lambda entry: (entry[0], [s.name for s in entry[1]]))
        yield from (mix for _, mix in found[:MOST_MIXES])

    def fewer_sheets(self) -> None:
        """Lay all pieces on fewer and fewer new sheets, as far as it goes."""
        while len(self._new) > self.at_least and not self._over():
            if self._may_be_proven and self._try_mixes(min(self.rounds, ROUNDS_BEFORE_PROOF)):
                continue
            if self._may_be_proven and self._is_too_few(len(self._new) - 1):
                self.at_least = len(self._new)
                self._tell(self.answer.plan)
            elif not self._try_mixes(self.rounds):
                break

    def _try_mixes(self, rounds: int) -> bool:
        return any(self._try(mix, rounds) for mix in self._mixes(len(self._new) - 1))

    def less_area(self) -> None:
        """Lay them on as many new sheets of less area, as far as it goes."""
        while len(self.job.kinds) > 1 and self._new and not self._over():
            paid = sum(s.area for s in self._new)
            mixes = self._mixes(len(self._new), paid)
            if not any(self._try(mix, self.rounds) for mix in mixes):
                break

    def _try(self, mix: Sequence[Sheet], rounds: int) -> bool:
        sheets = [*self.job.leftovers, *mix]
        cuts = self._reach(sheets, rounds)
        if cuts is None:
            return False
        self._keep(cuts)
        return True

    @property
    def _may_be_proven(self) -> bool:
        """Whether all ways of sharing out the pieces may be few enough to be tried."""
        job = self.job
        return not job.leftovers and len(job.kinds) == 1 and len(job.pieces) <= MOST_PIECES

    def _is_too_few(self, number: int) -> bool:
        """Whether all ways of sharing out the pieces among so many sheets were found to fail."""
        job = self.job
        sheet = job.size(job.kinds[0])
        return fit_together(job.sizes, job.turns, sheet, number, self._over) is False

    def larger_rest(self) -> None:
        """Shorten one sheet as far as it goes; what is taken from it is the rest."""
        used = self.used
        place = min(range(len(used)), key=lambda b: (used[b].is_leftover, _area(used[b])))
        search = StripSearch(
            self.job.sizes,
            self.job.turns,
            [self.job.size(s) for s in used],
            place,
            self.job.kerf,
            min(self.rounds * len(self.job.pieces) // PIECES_FOR_ALL_ROUNDS, ROUNDS_FOR_REST),
            self.seed,
        )
        while not self._over():
            attempt = search.next(to_grid(self.answer.rest[0]) * to_grid(self.answer.rest[1]))
            if attempt is None:
                return
            if search.attempt(*attempt, self._advance):
                # The first cut gives the strip, or more, to one rest.
                self._keep(self._cuts(search.goal, used))


def _worth(used: Sequence[Sheet]) -> tuple[int, int]:
    new = [s for s in used if not s.is_leftover]
    return len(new), sum(s.area for s in new)
