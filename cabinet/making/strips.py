"""Blanks of one width as strips: ripped once, then cut to length, so they are the same.

A strip is put into the search as one long piece; in the plan it is a part that is cut across.
Lengths in mm.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from cabinet.making.blanks import Blank
from cabinet.making.guillotine import Axis, Node, Piece, from_grid, to_grid


@dataclass(frozen=True, slots=True)
class Strip:
    """Blanks one behind the other along the grain, all of one width.

    Attributes:
        piece: What the search places.
        blanks: The blanks on it, from its low end.
    """

    piece: Piece
    blanks: tuple[Blank, ...]


def single(blank: Blank) -> Strip:
    """One blank by itself."""
    length, width = blank.along_grain
    piece = Piece(name=blank.name, length=length, width=width, may_turn=blank.may_turn)
    return Strip(piece, (blank,))


def strips(blanks: Sequence[Blank], longest: float, kerf: float) -> tuple[Strip, ...]:
    """Blanks that share a width on as few strips as first fit gives; others stay single.

    Args:
        blanks: What is to be cut, of one stock.
        longest: Length of the longest board along its grain.
        kerf: Width of a cut.
    """
    by_width: dict[tuple[int, bool], list[Blank]] = {}
    for blank in blanks:
        by_width.setdefault((to_grid(blank.along_grain[1]), blank.may_turn), []).append(blank)
    found: list[Strip] = []
    for (width, may_turn), mine in by_width.items():
        runs: list[list[Blank]] = []
        for blank in sorted(mine, key=lambda b: -b.along_grain[0]):
            run = next((r for r in runs if _length([*r, blank], kerf) <= to_grid(longest)), None)
            if run is None:
                runs.append([blank])
            else:
                run.append(blank)
        for run in runs:
            if len(run) == 1:
                found.append(single(run[0]))
                continue
            piece = Piece(
                name=f"strip with {run[0].name}",
                length=from_grid(_length(run, kerf)),
                width=from_grid(width),
                may_turn=may_turn,
            )
            found.append(Strip(piece, tuple(run)))
    return tuple(found)


def _length(run: Sequence[Blank], kerf: float) -> int:
    return sum(to_grid(b.along_grain[0]) for b in run) + to_grid(kerf) * (len(run) - 1)


def parted(node: Node, by_name: dict[str, Strip]) -> Node:
    """A plan's cuts with every strip cut into its blanks."""
    if node.piece:
        strip = by_name[node.piece]
        if len(strip.blanks) == 1:
            return replace(node, piece=strip.blanks[0].name)
        is_along = to_grid(node.length) == to_grid(strip.piece.length) and to_grid(
            node.width
        ) == to_grid(strip.piece.width)
        parts = tuple(
            Node(
                length=blank.along_grain[0] if is_along else node.length,
                width=node.width if is_along else blank.along_grain[0],
                piece=blank.name,
            )
            for blank in strip.blanks
        )
        axis = Axis.LENGTH if is_along else Axis.WIDTH
        return Node(length=node.length, width=node.width, axis=axis, parts=parts)
    return replace(node, parts=tuple(parted(part, by_name) for part in node.parts))
