"""The loop that is run a million times: ruin and recreate on trees of guillotine cuts.

The functions here are written twice over in one text: on plain lists Python runs them at once,
on arrays of 64-bit integers ``cabinet.making.packing.speed`` compiles them. Both give the same
result to the last random number, so a plan does not depend on which of the two was at work. That
is why they use whole numbers, one-dimensional sequences and plain loops, and nothing else, and
why none calls itself or makes a sequence: compiled, each is written out where it is called.

A sheet's pieces hang in a tree. A leaf is a piece; a joint lies its children side by side along
its axis (0 along the sheet's length, 1 across it) and is as large as they need, no larger:
whatever is left of the sheet belongs to nobody until a piece asks for it, so no cut is decided
before it has to be. ``room`` is the size a node could grow to with everything else as it is.
Joints alternate in axis from parent to child, so every set of guillotine cuts has one tree.

The search follows the idea of Gardeyn and Wauters, "A goal-driven ruin and recreate heuristic
for the 2D variable-sized bin packing problem with guillotine constraints", EJOR 301(2), 2022:
set a goal (these sheets and no more), take some pieces out, put them back where they fit best,
accept late (Burke and Bykov, "The late acceptance hill-climbing heuristic", EJOR 258(1), 2017).
The trees without decided cuts, the measures of fit and the ways to ruin are our own.
"""

from __future__ import annotations

from collections.abc import MutableSequence
from typing import NamedTuple

Ints = MutableSequence[int]
Floats = MutableSequence[float]

# Slots of State.tally.
SPARE, OUT, AREA_OUT, LUCK = 0, 1, 2, 3
# The generator of Park and Miller (CACM 31(10), 1988) with the multiplier they recommended in
# CACM 36(7), 1993; its products stay below 2**63.
MULTIPLIER, MODULUS = 48271, 2147483647


class Task(NamedTuple):
    """The pieces and the sheets of one goal, on the whole-number grid.

    Attributes:
        length, width: Sizes of each piece, kerf included.
        area: Their products.
        turn: 1 where a piece may be turned by 90 degrees.
        sheet_length, sheet_width, sheet_area: Sizes of each sheet, kerf included.
    """

    length: Ints
    width: Ints
    area: Ints
    turn: Ints
    sheet_length: Ints
    sheet_width: Ints
    sheet_area: Ints


class State(NamedTuple):
    """Trees of all sheets. Nodes 0 to n-1 are the pieces, the others are joints.

    Attributes:
        parent, first, following: Links; -1 is none.
        axis: Of a joint 0 or 1; of a piece -1.
        length, width: What the node needs (of a piece: as it lies).
        gap_length, gap_width: By how much more than a joint itself something below it could
            grow; of a piece 0.
        room_length, room_width: What it could have, as found when a place was last looked for.
        sheet: Of a piece, the sheet it lies on, or -1.
        root: Of a sheet, its topmost node or -1.
        used: Of a sheet, the area of its pieces.
        spare: Joints that are free to use, the first ``tally[SPARE]`` of them.
        out: Pieces that lie on no sheet, the first ``tally[OUT]`` of them.
        tally: Number of spare joints, of pieces out, area of pieces out, the random number.
    """

    parent: Ints
    first: Ints
    following: Ints
    axis: Ints
    length: Ints
    width: Ints
    gap_length: Ints
    gap_width: Ints
    room_length: Ints
    room_width: Ints
    sheet: Ints
    root: Ints
    used: Ints
    spare: Ints
    out: Ints
    tally: Ints


def draw(tally: Ints, below: int) -> int:
    """Return a random whole number from 0 to ``below`` - 1."""
    tally[LUCK] = tally[LUCK] * MULTIPLIER % MODULUS
    return tally[LUCK] % below


def assign(source: Ints, target: Ints) -> None:
    """Make ``target`` equal to ``source``, both of one length (compiled: ``assign_each``)."""
    target[:] = source[:]


def assign_each(source: Ints, target: Ints) -> None:
    """Do what ``assign`` does without making room for what may overlap."""
    for k in range(len(source)):
        target[k] = source[k]


def copy(source: State, target: State) -> None:
    """Make ``target`` equal to ``source``, except for the random number."""
    luck = target.tally[LUCK]
    assign(source.parent, target.parent)
    assign(source.first, target.first)
    assign(source.following, target.following)
    assign(source.axis, target.axis)
    assign(source.length, target.length)
    assign(source.width, target.width)
    assign(source.gap_length, target.gap_length)
    assign(source.gap_width, target.gap_width)
    assign(source.sheet, target.sheet)
    assign(source.root, target.root)
    assign(source.used, target.used)
    assign(source.spare, target.spare)
    assign(source.out, target.out)
    assign(source.tally, target.tally)
    target.tally[LUCK] = luck


def after(parent: Ints, first: Ints, following: Ints, node: int, top: int) -> int:
    """Return the node that follows, parents before children, in the tree below ``top``."""
    if first[node] >= 0:
        return first[node]
    return beyond(parent, following, node, top)


def beyond(parent: Ints, following: Ints, node: int, top: int) -> int:
    """Return the node that follows when all below ``node`` is passed over."""
    while node != top:
        if following[node] >= 0:
            return following[node]
        node = parent[node]
    return -1


def settle(s: State, joint: int) -> None:
    """Work out what a joint needs from what its children need, and so on as far as it matters."""
    following = s.following
    while joint >= 0:
        if s.axis[joint] == 0:
            alongs, acrosses, gaps_along, gaps_across = s.length, s.width, s.gap_length, s.gap_width
        else:
            alongs, acrosses, gaps_along, gaps_across = s.width, s.length, s.gap_width, s.gap_length
        child = s.first[joint]
        along = alongs[child]
        across = acrosses[child]
        gap_along = gaps_along[child]
        # What a child leaves free across the joint, all below it may grow by.
        least = across - gaps_across[child]
        child = following[child]
        while child >= 0:
            along += alongs[child]
            if acrosses[child] > across:  # noqa: PLR1730 - three times as fast in plain Python
                across = acrosses[child]
            if gaps_along[child] > gap_along:  # noqa: PLR1730 - as above
                gap_along = gaps_along[child]
            if acrosses[child] - gaps_across[child] < least:  # noqa: PLR1730 - as above
                least = acrosses[child] - gaps_across[child]
            child = following[child]
        if (
            along == alongs[joint]
            and across == acrosses[joint]
            and gap_along == gaps_along[joint]
            and across - least == gaps_across[joint]
        ):
            return
        alongs[joint] = along
        acrosses[joint] = across
        gaps_along[joint] = gap_along
        gaps_across[joint] = across - least
        joint = s.parent[joint]


def replace(s: State, old: int, new: int, b: int) -> None:
    """Put ``new`` in the place of ``old`` below its parent, or at the top of sheet ``b``."""
    parent = s.parent[old]
    s.parent[new] = parent
    s.following[new] = s.following[old]
    if parent < 0:
        s.root[b] = new
    elif s.first[parent] == old:
        s.first[parent] = new
    else:
        node = s.first[parent]
        while s.following[node] != old:
            node = s.following[node]
        s.following[node] = new
    s.parent[old] = -1
    s.following[old] = -1


def release(s: State, joint: int) -> None:
    """Give a joint back."""
    s.axis[joint] = -1
    s.first[joint] = -1
    s.parent[joint] = -1
    s.following[joint] = -1
    s.spare[s.tally[SPARE]] = joint
    s.tally[SPARE] += 1


def take_out(task: Task, s: State, piece: int) -> None:
    """Take a piece off its sheet."""
    b = s.sheet[piece]
    joint = s.parent[piece]
    smaller = joint
    if joint < 0:
        s.root[b] = -1
    else:
        if s.first[joint] == piece:
            s.first[joint] = s.following[piece]
        else:
            node = s.first[joint]
            while s.following[node] != piece:
                node = s.following[node]
            s.following[node] = s.following[piece]
        only = s.first[joint]
        if s.following[only] < 0:
            # A joint of one is no joint.
            replace(s, joint, only, b)
            release(s, joint)
            grand = s.parent[only]
            smaller = grand
            if grand >= 0 and s.axis[only] >= 0:
                # Its children lie along the same axis as their new elders: one row.
                last = s.first[only]
                s.parent[last] = grand
                while s.following[last] >= 0:
                    last = s.following[last]
                    s.parent[last] = grand
                s.following[last] = s.following[only]
                if s.first[grand] == only:
                    s.first[grand] = s.first[only]
                else:
                    node = s.first[grand]
                    while s.following[node] != only:
                        node = s.following[node]
                    s.following[node] = s.first[only]
                release(s, only)
    settle(s, smaller)
    s.parent[piece] = -1
    s.following[piece] = -1
    s.sheet[piece] = -1
    s.used[b] -= task.area[piece]
    s.out[s.tally[OUT]] = piece
    s.tally[OUT] += 1
    s.tally[AREA_OUT] += task.area[piece]


def put_in(task: Task, s: State, piece: int, turned: int, b: int, node: int, axis: int) -> None:
    """Lay a piece beside ``node`` along ``axis``.

    ``piece`` must have been taken from the list of pieces out by the caller.
    """
    s.length[piece] = task.width[piece] if turned else task.length[piece]
    s.width[piece] = task.length[piece] if turned else task.width[piece]
    s.sheet[piece] = b
    s.used[b] += task.area[piece]
    s.tally[AREA_OUT] -= task.area[piece]
    s.parent[piece] = -1
    s.following[piece] = -1
    if node < 0:
        s.root[b] = piece
    elif s.axis[node] == axis:
        s.parent[piece] = node
        s.following[piece] = s.first[node]
        s.first[node] = piece
        settle(s, node)
    else:
        s.tally[SPARE] -= 1
        joint = s.spare[s.tally[SPARE]]
        replace(s, node, joint, b)
        s.axis[joint] = axis
        s.first[joint] = node
        s.parent[node] = joint
        s.following[node] = piece
        s.parent[piece] = joint
        s.length[joint] = 0
        settle(s, joint)


def squares(m: int, q: int, am: int, aq: int, im: int, iq: int, share: float) -> float:
    """Return by how much the squares of the rests' areas become less: large rests are useful.

    Args as for ``loss``. Of the two ways to divide the corner between the rest beside and the
    rest above, the one with the larger sum counts.
    """
    wide = max(q, iq)
    rest = float(am - m - im) * aq * share
    over = float(m) * (aq - q) * share
    gap = float(im) * (aq - iq) * share
    now = rest * rest + over * over + gap * gap
    strip = float(am) * (aq - wide) * share
    rest = float(am - m - im) * wide * share
    over = float(m) * (wide - q) * share
    gap = float(im) * (wide - iq) * share
    now = max(now, strip * strip + rest * rest + over * over + gap * gap)
    rest = float(am - m) * aq * share
    over = float(m) * (aq - q) * share
    then = rest * rest + over * over
    strip = float(am) * (aq - q) * share
    rest = float(am - m) * q * share
    return max(then, strip * strip + rest * rest) - now


def loss(rule: int, m: int, q: int, am: int, aq: int, im: int, iq: int, share: float) -> float:
    """Return how badly a piece fits beside a node; the least is best.

    Args:
        rule: Which measure is used: 0 the gap that opens beside the shorter of the two, 2 that
            and what is left in the row, 1 squares of rests.
        m: What the node needs along the axis.
        q: What it needs across it.
        am: What it could have along the axis.
        aq: What it could have across it.
        im: What the piece needs along the axis.
        iq: What it needs across it.
        share: 1 divided by the area of the sheet.
    """
    if rule == 1:
        return squares(m, q, am, aq, im, iq, share)
    gap = im * (q - iq) if iq <= q else m * (iq - q)
    row = 0.001 if rule == 0 else 0.5
    return (gap + row * (am - m - im) * max(q, iq)) * share


def loss_alone(task: Task, rule: int, b: int, il: int, iw: int) -> float:
    """Return the loss of a piece that would be the first on sheet ``b``."""
    if rule != 1:
        return 0.5
    rest = max(
        float(task.sheet_length[b] - il) * task.sheet_width[b],
        float(task.sheet_width[b] - iw) * task.sheet_length[b],
    )
    rest /= task.sheet_area[b]
    return 1.0 - rest * rest


def place_on(  # noqa: C901, PLR0912, PLR0915 - the innermost loop: calls would cost half
    task: Task,
    s: State,
    b: int,
    il: int,
    iw: int,
    rule: int,
    blink: int,
    best: float,
    where: Ints,
    stack: Ints,
) -> float:
    """Look for a place on sheet ``b`` with a loss below ``best``; return the least.

    A place is beside everything on the sheet, or beside a child of a joint across the joint's
    axis. (Beside a child along that axis is beside the joint.)

    What is below a joint may grow by what the joint may grow by, and by its gap at most: where
    that is too little both ways the joint is passed over.

    Args:
        task: The pieces and the sheets.
        s: The trees.
        b: The sheet; something lies on it, and the piece is not larger than it is.
        il: Length of the piece as it would lie.
        iw: Its width.
        rule: The measure of fit.
        blink: Chance, in 1/1024, that a place is overlooked.
        best: The least loss so far.
        where: Set to sheet, (nothing,) node and axis if a better place is found.
        stack: Scratch, as long as there are nodes.
    """
    share = 1.0 / task.sheet_area[b]
    first = s.first
    following = s.following
    kind = s.axis
    length = s.length
    width = s.width
    room_length = s.room_length
    room_width = s.room_width
    gap_length = s.gap_length
    gap_width = s.gap_width
    node = s.root[b]
    rl = task.sheet_length[b]
    rw = task.sheet_width[b]
    nl = length[node]
    nw = width[node]
    if il > rl - nl + gap_length[node] and iw > rw - nw + gap_width[node]:
        return best
    for axis in range(2):
        if axis == 0:
            worth = loss(rule, nl, nw, rl, rw, il, iw, share) if nl + il <= rl else 1e300
        else:
            worth = loss(rule, nw, nl, rw, rl, iw, il, share) if nw + iw <= rw else 1e300
        if worth < best and not (blink and draw(s.tally, 1024) < blink):
            best = worth
            where[0] = b
            where[2] = node
            where[3] = axis
    depth = 0
    if kind[node] >= 0:
        room_length[node] = rl
        room_width[node] = rw
        stack[0] = node
        depth = 1
    while depth:
        depth -= 1
        joint = stack[depth]
        # Beside a child of a joint: along the joint's axis the child may grow, across it not.
        if kind[joint] == 0:
            along, across, room_along, room_across = length, width, room_length, room_width
            gap_along, gap_across = gap_length, gap_width
            ia, ic, side = il, iw, 1
        else:
            along, across, room_along, room_across = width, length, room_width, room_length
            gap_along, gap_across = gap_width, gap_length
            ia, ic, side = iw, il, 0
        rc = room_across[joint]
        over = room_along[joint] - along[joint]
        node = first[joint]
        while node >= 0:
            ra = along[node] + over
            if ia <= ra:
                nc = across[node]
                if nc + ic <= rc:
                    worth = loss(rule, nc, along[node], rc, ra, ic, ia, share)
                    if worth < best and not (blink and draw(s.tally, 1024) < blink):
                        best = worth
                        where[0] = b
                        where[2] = node
                        where[3] = side
                if kind[node] >= 0 and (
                    ia <= over + gap_along[node] or ic <= rc - nc + gap_across[node]
                ):
                    room_along[node] = ra
                    room_across[node] = rc
                    stack[depth] = node
                    depth += 1
            node = following[node]
    return best


def place(
    task: Task, s: State, piece: int, rule: int, blink: int, where: Ints, stack: Ints
) -> bool:
    """Put one piece where it fits best; return whether it fits anywhere.

    Args:
        task: The pieces and the sheets.
        s: The trees, changed in place.
        piece: The piece, taken from the list of pieces out by the caller.
        rule: The measure of fit.
        blink: Chance, in 1/1024, that a place is overlooked.
        where: Scratch of four numbers.
        stack: Scratch, as long as there are nodes.
    """
    best = 1e300
    ways = 2 if task.turn[piece] and task.length[piece] != task.width[piece] else 1
    for b in range(len(task.sheet_area)):
        if s.used[b] + task.area[piece] > task.sheet_area[b]:
            continue
        for turned in range(ways):
            il = task.width[piece] if turned else task.length[piece]
            iw = task.length[piece] if turned else task.width[piece]
            if il > task.sheet_length[b] or iw > task.sheet_width[b]:
                continue
            before = best
            if s.root[b] >= 0:
                best = place_on(task, s, b, il, iw, rule, blink, best, where, stack)
            else:
                worth = loss_alone(task, rule, b, il, iw)
                if worth < best and not (blink and draw(s.tally, 1024) < blink):
                    best = worth
                    where[0] = b
                    where[2] = -1
                    where[3] = 0
            if best < before:
                where[1] = turned
    if best == 1e300:
        return False
    put_in(task, s, piece, where[1], where[0], where[2], where[3])
    return True


def key_of(task: Task, weight: Floats, piece: int, sort: int) -> float:
    """Return by what a piece comes sooner: area, longer side, both sides, one side, weight."""
    if sort == 0:
        return float(task.area[piece])
    if sort == 1:
        return float(max(task.length[piece], task.width[piece]))
    if sort == 2:
        return float(task.length[piece] + task.width[piece])
    if sort == 3:
        return float(task.length[piece])
    if sort == 4:
        return float(task.width[piece])
    return weight[piece]


def recreate(
    task: Task,
    s: State,
    rule: int,
    sort: int,
    noise: int,
    blink: int,
    where: Ints,
    stack: Ints,
    keys: Floats,
    weight: Floats,
    limit: float,
) -> None:
    """Put the pieces that are out back, largest first by a measure, as far as they fit.

    Once those that fit nowhere weigh more than ``limit`` the rest is left out too.
    """
    number = s.tally[OUT]
    for k in range(number):
        piece = s.out[k]
        key = key_of(task, weight, piece, sort)
        if noise:
            key *= 1024.0 + draw(s.tally, noise)
        j = k
        while j > 0 and keys[j - 1] < key:
            keys[j] = keys[j - 1]
            s.out[j] = s.out[j - 1]
            j -= 1
        keys[j] = key
        s.out[j] = piece
    left = 0
    failed = -1
    lost = 0.0
    for k in range(number):
        piece = s.out[k]
        # What is no smaller than a piece that found no place finds none, for there is less room.
        is_hopeless = (
            failed >= 0
            and task.length[piece] >= task.length[failed]
            and task.width[piece] >= task.width[failed]
            and task.turn[piece] <= task.turn[failed]
        )
        if is_hopeless or lost > limit or not place(task, s, piece, rule, blink, where, stack):
            if not is_hopeless:
                failed = piece
            s.out[left] = piece
            left += 1
            lost += weight[piece]
    s.tally[OUT] = left


def uproot(task: Task, s: State, node: int, keep: int, limit: int, scratch: Ints) -> None:
    """Take out the pieces below ``node``, each with the chance 1 - ``keep``/1024.

    No more than ``limit`` of them: what is torn wide open is seldom put back better.
    """
    number = 0
    top = node
    while node >= 0 and number < limit:
        if s.axis[node] < 0 and (keep == 0 or draw(s.tally, 1024) >= keep):
            scratch[number] = node
            number += 1
        node = after(s.parent, s.first, s.following, node, top)
    for k in range(number):
        take_out(task, s, scratch[k])


def pick(s: State, n: int, last: int) -> int:
    """Draw a piece; if ``last`` is a sheet, one that lies there, if eight draws find one."""
    piece = draw(s.tally, n)
    if last >= 0:
        for _ in range(8):
            if s.sheet[piece] == last:
                break
            piece = draw(s.tally, n)
    return piece


def ruin_branches(task: Task, s: State, nodes: int, scratch: Ints) -> None:
    """Take out branches: anywhere, or one near another."""
    number = 1 + draw(s.tally, 2 * nodes - 1)
    near = draw(s.tally, 3) == 0
    last = -1
    for _ in range(number):
        node = pick(s, len(task.length), last if near else -1)
        if s.sheet[node] < 0:
            continue
        last = s.sheet[node]
        while s.parent[node] >= 0 and draw(s.tally, 4) == 0:
            node = s.parent[node]
        uproot(task, s, node, 0, nodes, scratch)


def ruin(task: Task, s: State, nodes: int, scratch: Ints) -> None:
    """Take some pieces out: branches here and there, or much of a few sheets."""
    sheets = len(task.sheet_area)
    if draw(s.tally, 16) < 11:
        ruin_branches(task, s, nodes, scratch)
    else:
        keep = draw(s.tally, 4) * 256
        for _ in range(1 + draw(s.tally, 3)):
            b = draw(s.tally, sheets)
            if s.root[b] >= 0:
                uproot(task, s, s.root[b], keep, 2 * nodes, scratch)


def cut_back(task: Task, s: State, b: int) -> None:
    """Take pieces out until what is left lies within sheet ``b``, which has become smaller."""
    while s.root[b] >= 0:
        node = s.root[b]
        if s.length[node] > task.sheet_length[b]:
            axis = 0
            need = s.length
        elif s.width[node] > task.sheet_width[b]:
            axis = 1
            need = s.width
        else:
            return
        while s.axis[node] >= 0:
            # Of a row anything may go; of what lies across it only the longest makes a difference.
            child = s.first[node]
            along = s.axis[node] == axis
            node = child
            seen = 1
            child = s.following[child]
            while child >= 0:
                seen += 1
                if draw(s.tally, seen) == 0 if along else need[child] > need[node]:
                    node = child
                child = s.following[child]
        take_out(task, s, node)


def cost_of(weight: Floats, s: State) -> float:
    """Return what the search lessens: the weight of the pieces that are out."""
    total = 0.0
    for k in range(s.tally[OUT]):
        total += weight[s.out[k]]
    return total


def search(
    task: Task,
    now: State,
    trial: State,
    scratch: Ints,
    where: Ints,
    keys: Floats,
    weight: Floats,
    history: Floats,
    clock: Ints,
    notes: Ints,
    every: int,
    rounds: int,
    nodes: int,
    blink: int,
    patience: int,
    growth: float,
) -> bool:
    """Ruin and recreate ``rounds`` times; return whether every piece has its place in ``now``.

    What is lessened is the weight of the pieces that are out. At first a piece weighs its area;
    as long as nothing is gained, those that are out grow heavier, so that each in turn is worth
    others' places (the idea of guided ejection: Nagata and Braysy, "A powerful route
    minimization heuristic for the vehicle routing problem with time windows", Operations
    Research Letters 37(5), 2009).
    """
    memory = len(history)
    cost = cost_of(weight, now)
    for _ in range(rounds):
        if now.tally[OUT] == 0:
            return True
        copy(now, trial)
        ruin(task, trial, nodes, scratch)
        rule = draw(trial.tally, 3)
        sort = draw(trial.tally, 8)
        noise = 1 + draw(trial.tally, 2) * 512
        slot = clock[0] % memory
        limit = max(cost, history[slot])
        recreate(
            task,
            trial,
            rule,
            0 if sort > 5 else sort,
            noise,
            blink,
            where,
            scratch,
            keys,
            weight,
            limit,
        )
        clock[0] += 1
        new = cost_of(weight, trial)
        if new < cost:
            clock[1] = clock[0]
        if new <= limit:
            copy(trial, now)
            cost = new
        history[slot] = min(history[slot], cost)
        if every and clock[0] % every == 0 and new <= limit:
            start = (clock[0] // every - 1) * len(task.length)
            for k in range(min(len(task.length), len(notes) - start)):
                notes[start + k] = trial.sheet[k]
        if clock[0] - clock[1] >= patience:
            clock[1] = clock[0]
            for k in range(now.tally[OUT]):
                weight[now.out[k]] += growth * task.area[now.out[k]]
            cost = cost_of(weight, now)
    return now.tally[OUT] == 0
