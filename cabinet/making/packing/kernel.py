"""The loop that is run a million times: ruin and recreate on trees of guillotine cuts.

The functions here are written twice over in one text: on plain lists Python runs them at once,
on arrays of 64-bit integers ``cabinet.making.packing.speed`` compiles them. Both give the same
result to the last random number, so a plan does not depend on which of the two was at work. That
is why they use whole numbers, one-dimensional sequences and plain loops, and nothing else.

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

# Slots of State.count.
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
        room_length, room_width: What it could have.
        sheet: Of a piece, the sheet it lies on, or -1.
        root: Of a sheet, its topmost node or -1.
        used: Of a sheet, the area of its pieces.
        spare: Joints that are free to use, the first ``count[SPARE]`` of them.
        out: Pieces that lie on no sheet, the first ``count[OUT]`` of them.
        count: Number of spare joints, of pieces out, area of pieces out, the random number.
    """

    parent: Ints
    first: Ints
    following: Ints
    axis: Ints
    length: Ints
    width: Ints
    room_length: Ints
    room_width: Ints
    sheet: Ints
    root: Ints
    used: Ints
    spare: Ints
    out: Ints
    count: Ints


def draw(count: Ints, below: int) -> int:
    """Return a random whole number from 0 to ``below`` - 1."""
    count[LUCK] = count[LUCK] * MULTIPLIER % MODULUS
    return count[LUCK] % below


def copy(source: State, target: State) -> None:
    """Make ``target`` equal to ``source``, except for the random number."""
    luck = target.count[LUCK]
    target.parent[:] = source.parent[:]
    target.first[:] = source.first[:]
    target.following[:] = source.following[:]
    target.axis[:] = source.axis[:]
    target.length[:] = source.length[:]
    target.width[:] = source.width[:]
    target.room_length[:] = source.room_length[:]
    target.room_width[:] = source.room_width[:]
    target.sheet[:] = source.sheet[:]
    target.root[:] = source.root[:]
    target.used[:] = source.used[:]
    target.spare[:] = source.spare[:]
    target.out[:] = source.out[:]
    target.count[:] = source.count[:]
    target.count[LUCK] = luck


def after(parent: Ints, first: Ints, following: Ints, node: int, top: int) -> int:
    """Return the node that follows, parents before children, in the tree below ``top``."""
    if first[node] >= 0:
        return first[node]
    while node != top:
        if following[node] >= 0:
            return following[node]
        node = parent[node]
    return -1


def refresh(task: Task, s: State, b: int, order: Ints) -> None:
    """Work out sizes and rooms of all nodes on sheet ``b``."""
    node = s.root[b]
    if node < 0:
        return
    top = node
    number = 0
    while node >= 0:
        order[number] = node
        number += 1
        node = after(s.parent, s.first, s.following, node, top)
    for k in range(number - 1, -1, -1):
        node = order[k]
        if s.axis[node] < 0:
            continue
        length = 0
        width = 0
        child = s.first[node]
        along = s.axis[node] == 0
        while child >= 0:
            if along:
                length += s.length[child]
                width = max(width, s.width[child])
            else:
                width += s.width[child]
                length = max(length, s.length[child])
            child = s.following[child]
        s.length[node] = length
        s.width[node] = width
    s.room_length[top] = task.sheet_length[b]
    s.room_width[top] = task.sheet_width[b]
    for k in range(number):
        node = order[k]
        if s.axis[node] < 0:
            continue
        child = s.first[node]
        along = s.axis[node] == 0
        while child >= 0:
            if along:
                s.room_length[child] = s.room_length[node] - s.length[node] + s.length[child]
                s.room_width[child] = s.room_width[node]
            else:
                s.room_width[child] = s.room_width[node] - s.width[node] + s.width[child]
                s.room_length[child] = s.room_length[node]
            child = s.following[child]


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
    s.spare[s.count[SPARE]] = joint
    s.count[SPARE] += 1


def take_out(task: Task, s: State, piece: int) -> None:
    """Take a piece off its sheet; sizes are not worked out again."""
    b = s.sheet[piece]
    joint = s.parent[piece]
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
    s.parent[piece] = -1
    s.following[piece] = -1
    s.sheet[piece] = -1
    s.used[b] -= task.area[piece]
    s.out[s.count[OUT]] = piece
    s.count[OUT] += 1
    s.count[AREA_OUT] += task.area[piece]


def put_in(task: Task, s: State, piece: int, turned: int, b: int, node: int, axis: int) -> None:
    """Lay a piece beside ``node`` along ``axis``; sizes are not worked out again.

    ``piece`` must have been taken from the list of pieces out by the caller.
    """
    s.length[piece] = task.width[piece] if turned else task.length[piece]
    s.width[piece] = task.length[piece] if turned else task.width[piece]
    s.sheet[piece] = b
    s.used[b] += task.area[piece]
    s.count[AREA_OUT] -= task.area[piece]
    s.parent[piece] = -1
    s.following[piece] = -1
    if node < 0:
        s.root[b] = piece
    elif s.axis[node] == axis:
        s.parent[piece] = node
        s.following[piece] = s.first[node]
        s.first[node] = piece
    else:
        s.count[SPARE] -= 1
        joint = s.spare[s.count[SPARE]]
        replace(s, node, joint, b)
        s.axis[joint] = axis
        s.first[joint] = node
        s.parent[node] = joint
        s.following[node] = piece
        s.parent[piece] = joint


def loss(rule: int, m: int, q: int, am: int, aq: int, im: int, iq: int, share: float) -> float:
    """Return how badly a piece fits beside a node; the least is best.

    Args:
        rule: Which measure is used: 0 strips that no other piece can share, 1 squares of rests.
        m, q: What the node needs along the axis and across it.
        am, aq: What it could have.
        im, iq: What the piece needs.
        share: 1 divided by the area of the sheet.
    """
    wide = max(q, iq)
    if rule == 0:
        beside = im * (q - iq) if iq <= q else m * (iq - q)
        return (beside + 0.001 * (am - m - im) * wide) * share
    if rule == 2:
        beside = im * (q - iq) if iq <= q else m * (iq - q)
        return (beside + 0.5 * (am - m - im) * wide) * share
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


def place(
    task: Task, s: State, piece: int, rule: int, blink: int, order: Ints, where: Ints
) -> bool:
    """Put one piece where it fits best; return whether it fits anywhere.

    Args:
        task: The pieces and the sheets.
        s: The trees, changed in place.
        piece: The piece, taken from the list of pieces out by the caller.
        rule: The measure of fit.
        blink: Chance, in 1/1024, that a place is overlooked.
        order: Scratch, as long as there are nodes.
        where: Scratch of four numbers.
    """
    best = 1e300
    found = False
    parent = s.parent
    first = s.first
    following = s.following
    length = s.length
    width = s.width
    room_length = s.room_length
    room_width = s.room_width
    ways = 2 if task.turn[piece] and task.length[piece] != task.width[piece] else 1
    for b in range(len(task.sheet_area)):
        if s.used[b] + task.area[piece] > task.sheet_area[b]:
            continue
        share = 1.0 / task.sheet_area[b]
        top = s.root[b]
        for turned in range(ways):
            il = task.width[piece] if turned else task.length[piece]
            iw = task.length[piece] if turned else task.width[piece]
            if il > task.sheet_length[b] or iw > task.sheet_width[b]:
                continue
            if top < 0:
                worth = 0.0
                if rule == 1:
                    rest = max(
                        float(task.sheet_length[b] - il) * task.sheet_width[b],
                        float(task.sheet_width[b] - iw) * task.sheet_length[b],
                    )
                    worth = 1.0 - rest * rest * share * share
                else:
                    worth = 0.5
                if worth < best and not (blink and draw(s.count, 1024) < blink):
                    best = worth
                    found = True
                    where[0] = b
                    where[1] = turned
                    where[2] = -1
                    where[3] = 0
                continue
            node = top
            while node >= 0:
                rl = room_length[node]
                rw = room_width[node]
                if il <= rl and iw <= rw:
                    own = s.axis[node]
                    for axis in range(2):
                        if node != top:
                            # Beside a piece along its parent's axis is beside the parent.
                            if own >= 0:
                                if axis != own:
                                    continue
                            elif axis == s.axis[parent[node]]:
                                continue
                        if axis == 0:
                            if length[node] + il > rl:
                                continue
                            worth = loss(rule, length[node], width[node], rl, rw, il, iw, share)
                        else:
                            if width[node] + iw > rw:
                                continue
                            worth = loss(rule, width[node], length[node], rw, rl, iw, il, share)
                        if worth < best and not (blink and draw(s.count, 1024) < blink):
                            best = worth
                            found = True
                            where[0] = b
                            where[1] = turned
                            where[2] = node
                            where[3] = axis
                node = after(parent, first, following, node, top)
    if found:
        put_in(task, s, piece, where[1], where[0], where[2], where[3])
        refresh(task, s, where[0], order)
    return found


def recreate(
    task: Task,
    s: State,
    rule: int,
    sort: int,
    noise: int,
    blink: int,
    order: Ints,
    where: Ints,
    keys: Floats,
    weight: Floats,
) -> None:
    """Put the pieces that are out back, largest first by a measure, as far as they fit."""
    number = s.count[OUT]
    for k in range(number):
        piece = s.out[k]
        if sort == 0:
            key = float(task.area[piece])
        elif sort == 1:
            key = float(max(task.length[piece], task.width[piece]))
        elif sort == 2:
            key = float(task.length[piece] + task.width[piece])
        elif sort == 3:
            key = float(task.length[piece])
        elif sort == 4:
            key = float(task.width[piece])
        else:
            key = weight[piece]
        if noise:
            key *= 1024.0 + draw(s.count, noise)
        j = k
        while j > 0 and keys[j - 1] < key:
            keys[j] = keys[j - 1]
            s.out[j] = s.out[j - 1]
            j -= 1
        keys[j] = key
        s.out[j] = piece
    left = 0
    for k in range(number):
        piece = s.out[k]
        if not place(task, s, piece, rule, blink, order, where):
            s.out[left] = piece
            left += 1
    s.count[OUT] = left


def uproot(task: Task, s: State, node: int, keep: int, limit: int, scratch: Ints) -> None:
    """Take out the pieces below ``node``, each with the chance 1 - ``keep``/1024.

    No more than ``limit`` of them: what is torn wide open is seldom put back better.
    """
    number = 0
    top = node
    while node >= 0 and number < limit:
        if s.axis[node] < 0 and (keep == 0 or draw(s.count, 1024) >= keep):
            scratch[number] = node
            number += 1
        node = after(s.parent, s.first, s.following, node, top)
    for k in range(number):
        take_out(task, s, scratch[k])


def ruin(task: Task, s: State, nodes: int, order: Ints, scratch: Ints) -> None:
    """Take some pieces out: branches here and there, or much of a few sheets."""
    n = len(task.length)
    sheets = len(task.sheet_area)
    if draw(s.count, 16) < 11:
        number = 1 + draw(s.count, 2 * nodes - 1)
        near = draw(s.count, 3) == 0
        last = -1
        for _ in range(number):
            piece = draw(s.count, n)
            if near and last >= 0:
                for _again in range(8):
                    if s.sheet[piece] == last:
                        break
                    piece = draw(s.count, n)
            if s.sheet[piece] < 0:
                continue
            last = s.sheet[piece]
            node = piece
            while s.parent[node] >= 0 and draw(s.count, 4) == 0:
                node = s.parent[node]
            uproot(task, s, node, 0, nodes, scratch)
    else:
        keep = draw(s.count, 4) * 256
        for _ in range(1 + draw(s.count, 3)):
            b = draw(s.count, sheets)
            if s.root[b] >= 0:
                uproot(task, s, s.root[b], keep, 2 * nodes, scratch)
    for b in range(sheets):
        refresh(task, s, b, order)


def cost_of(weight: Floats, s: State) -> float:
    """Return what the search lessens: the weight of the pieces that are out."""
    total = 0.0
    for k in range(s.count[OUT]):
        total += weight[s.out[k]]
    return total


def search(
    task: Task,
    now: State,
    trial: State,
    order: Ints,
    scratch: Ints,
    where: Ints,
    keys: Floats,
    weight: Floats,
    history: Floats,
    clock: Ints,
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
        if now.count[OUT] == 0:
            return True
        copy(now, trial)
        ruin(task, trial, nodes, order, scratch)
        rule = draw(trial.count, 3)
        sort = draw(trial.count, 8)
        noise = 1 + draw(trial.count, 2) * 512
        recreate(
            task, trial, rule, 0 if sort > 5 else sort, noise, blink, order, where, keys, weight
        )
        slot = clock[0] % memory
        clock[0] += 1
        new = cost_of(weight, trial)
        if new < cost:
            clock[1] = clock[0]
        if new <= max(cost, history[slot]):
            copy(trial, now)
            cost = new
        history[slot] = min(history[slot], cost)
        if clock[0] - clock[1] >= patience:
            clock[1] = clock[0]
            for k in range(now.count[OUT]):
                weight[now.out[k]] += growth * task.area[now.out[k]]
            cost = cost_of(weight, now)
    return now.count[OUT] == 0
