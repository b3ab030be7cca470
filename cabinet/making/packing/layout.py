"""From the search's trees, which leave cuts undecided, to the cuts of a sheet.

Sizes on the grid come with the kerf included: a part of length l takes l plus a kerf from a
sheet that is a kerf longer than it is, so that sizes simply add up. Here the kerf goes again.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from cabinet.making.guillotine import Axis, Node, from_grid
from cabinet.making.packing.goal import Size
from cabinet.making.packing.kernel import State


class Layout:
    """The trees of one state, with the pieces' names.

    Args:
        state: The trees.
        names: Name of each piece.
        kerf: Kerf on the grid.
    """

    def __init__(self, state: State, names: Sequence[str], kerf: int) -> None:
        self._state = state
        self._names = names
        self._kerf = kerf

    def node(self, sheet: int, size: Size) -> Node:
        """The cuts of a sheet.

        What is left beside all pieces, and what is left above them, share a corner: the first
        cut gives it to the one that becomes the larger rest by it.

        Args:
            sheet: Which sheet.
            size: Its length and width on the grid, kerf included.
        """
        top = self._state.root[sheet]
        if top < 0:
            return self._rest(*size)
        length, width = self._state.length[top], self._state.width[top]
        along = (size[0] - length) * size[1] >= (size[1] - width) * size[0]
        inner = (length, size[1]) if along else (size[0], width)
        within = self._within(top, *inner)
        return self._cut(*size, along=along, parts=[(within, inner[0] if along else inner[1])])

    def _children(self, node: int) -> Iterator[int]:
        child = self._state.first[node]
        while child >= 0:
            yield child
            child = self._state.following[child]

    def _within(self, node: int, length: int, width: int) -> Node:
        """The cuts of a node that may be larger than it needs along one axis."""
        s = self._state
        axis = s.axis[node]
        if axis < 0:
            piece = Node(
                length=from_grid(s.length[node] - self._kerf),
                width=from_grid(s.width[node] - self._kerf),
                piece=self._names[node],
            )
            along = length > s.length[node]
            own = s.length[node] if along else s.width[node]
            return self._cut(length, width, along=along, parts=[(piece, own)])
        along = axis == 0
        parts: list[tuple[Node, int]] = []
        for child in self._children(node):
            own = s.length[child] if along else s.width[child]
            size = (own, width) if along else (length, own)
            parts.append((self._within(child, *size), own))
        return self._cut(length, width, along=along, parts=parts)

    def _rest(self, length: int, width: int) -> Node:
        return Node(length=from_grid(length - self._kerf), width=from_grid(width - self._kerf))

    def _cut(self, length: int, width: int, *, along: bool, parts: list[tuple[Node, int]]) -> Node:
        """Lay parts side by side; what is left beyond them is a rest, or dust."""
        whole, across = (length, width) if along else (width, length)
        left = whole - sum(size for _, size in parts)
        nodes = [node for node, _ in parts]
        if left > self._kerf:
            nodes.append(self._rest(left, across) if along else self._rest(across, left))
        if len(nodes) == 1 and left == 0:
            return nodes[0]
        return Node(
            length=from_grid(length - self._kerf),
            width=from_grid(width - self._kerf),
            axis=Axis.LENGTH if along else Axis.WIDTH,
            parts=tuple(nodes),
        )


def rests(node: Node) -> Iterator[Node]:
    """Everything below ``node`` that is left over."""
    if node.is_rest:
        yield node
    for part in node.parts:
        yield from rests(part)
