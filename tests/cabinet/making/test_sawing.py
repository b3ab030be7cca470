"""The order of cuts, and the bench that makes them again."""

from __future__ import annotations

from dataclasses import replace

import pytest

from cabinet.errors import DesignError
from cabinet.making.guillotine import Axis, Node
from cabinet.making.outline import Rect, Wood, l_shape, rectangle
from cabinet.making.sawing import (
    Cut,
    bench,
    corner,
    cuts_of,
    least_settings,
    leaves_in_place,
    settings,
    tidied,
)

KERF = 3.0


def strip(width: float, lengths: tuple[float, ...], whole: float) -> Node:
    """A strip that is cut across into pieces, the rest behind them."""
    left = whole - sum(lengths) - KERF * len(lengths)
    parts = [
        Node(length=length, width=width, piece=f"{width:g} x {length:g} no. {k}")
        for k, length in enumerate(lengths)
    ]
    return Node(
        length=whole,
        width=width,
        axis=Axis.LENGTH,
        parts=(*parts, Node(length=left, width=width)),
    )


def sheet(*strips: Node) -> Node:
    """Strips one above the other, and the rest."""
    whole = 613.0 - sum(s.width + KERF for s in strips)
    return Node(
        length=1207.0,
        width=613.0,
        axis=Axis.WIDTH,
        parts=(*strips, Node(length=1207.0, width=whole)),
    )


WOOD = Wood(rectangle(1207.0, 613.0))


def cuts(root: Node, wood: Wood = WOOD, trim: float = 0.0) -> tuple[Cut, ...]:
    left = [rect for node, rect in leaves_in_place(root, trim, KERF) if node.is_rest]
    return cuts_of(
        root,
        name="lid",
        kerf=KERF,
        trim=trim,
        size=(root.length + 2 * trim, root.width + 2 * trim),
        wood=wood,
        rests={corner(rect): f"rest {number}" for number, rect in enumerate(left, start=1)},
    )


def test_the_fence_stands_while_anything_needs_its_distance() -> None:
    root = sheet(
        strip(97.0, (311.0, 211.0), 1207.0),
        strip(61.0, (211.0, 311.0), 1207.0),
        strip(97.0, (311.0,), 1207.0),
    )
    made = cuts(tidied(root))
    fences = [cut.fence for cut in made]
    assert settings(made) == least_settings(made) == 4
    assert [k for k, f in enumerate(fences) if k == 0 or fences[k - 1] != f] == [0, 2, 3, 6]
    assert sorted(set(fences)) == [61.0, 97.0, 211.0, 311.0]


def test_the_list_alone_gives_every_piece() -> None:
    root = sheet(strip(97.0, (311.0, 211.0), 1207.0), strip(61.0, (211.0,), 1207.0))
    there = bench("lid", (1207.0, 613.0), cuts(root), kerf=KERF, wood=WOOD)
    assert there["97 x 311 no. 0"] == Rect(0.0, 0.0, 311.0, 97.0)
    assert there["97 x 211 no. 1"] == Rect(314.0, 0.0, 211.0, 97.0)
    assert there["61 x 211 no. 0"] == Rect(0.0, 100.0, 211.0, 61.0)
    assert len(there) == 3 + 3


def test_edges_are_trimmed_first() -> None:
    root = Node(
        length=1187.0,
        width=593.0,
        axis=Axis.LENGTH,
        parts=(Node(length=311.0, width=593.0, piece="a"), Node(length=873.0, width=593.0)),
    )
    made = cuts(root, trim=10.0)
    assert [cut.is_trim for cut in made] == [True] * 4 + [False]
    there = bench("lid", (1207.0, 613.0), made, kerf=KERF, wood=WOOD)
    assert there["a"] == Rect(10.0, 10.0, 311.0, 593.0)
    assert settings(made) == 1


def test_nothing_is_cut_in_the_air() -> None:
    # The upper right corner is missing: the upper strip ends where the outline does.
    wood = Wood(l_shape(1207.0, 613.0, (900.0, 313.0)))
    root = Node(
        length=1207.0,
        width=613.0,
        axis=Axis.WIDTH,
        parts=(
            Node(length=1207.0, width=300.0, piece="long"),
            Node(
                length=1207.0,
                width=310.0,
                axis=Axis.LENGTH,
                parts=(
                    Node(length=307.0, width=310.0, piece="short"),
                    Node(length=897.0, width=310.0),
                ),
            ),
        ),
    )
    made = cuts(root, wood)
    assert [(cut.gives, cut.leaves) for cut in made] == [("long", "short")]
    there = bench("lid", (1207.0, 613.0), made, kerf=KERF, wood=wood)
    assert there["short"].y == 303.0


def test_an_edge_is_made_straight_on_the_side_where_the_wood_is() -> None:
    # Of the right part nothing is there below 400, and its first 2 above that go with the blade.
    wood = Wood(
        ((0.0, 0.0), (600.0, 0.0), (600.0, 400.0), (1207.0, 400.0), (1207.0, 613.0), (0.0, 613.0))
    )
    root = Node(
        length=1207.0,
        width=613.0,
        axis=Axis.LENGTH,
        parts=(
            Node(length=607.0, width=613.0, piece="a"),
            Node(
                length=597.0,
                width=613.0,
                axis=Axis.WIDTH,
                parts=(
                    Node(length=597.0, width=399.0),
                    Node(length=597.0, width=211.0, piece="b"),
                ),
            ),
        ),
    )
    made = cuts(root, wood)
    assert [cut.is_trim for cut in made] == [False, True]
    there = bench("lid", (1207.0, 613.0), made, kerf=KERF, wood=wood)
    assert there["b"] == Rect(610.0, 402.0, 597.0, 211.0)


def test_a_slanted_edge_cannot_lie_at_the_fence() -> None:
    wood = Wood(((0.0, 0.0), (1207.0, 0.0), (1207.0, 613.0), (600.0, 613.0)))
    root = Node(
        length=1207.0,
        width=613.0,
        axis=Axis.LENGTH,
        parts=(Node(length=601.0, width=613.0), Node(length=603.0, width=613.0, piece="a")),
    )
    (cut,) = cuts(root, wood)
    assert cut.by_rail
    (straight,) = cuts(root)
    assert not straight.by_rail


GOOD = cuts(sheet(strip(97.0, (311.0, 211.0), 1207.0)))


@pytest.mark.parametrize(
    ("spoil", "says"),
    [
        (lambda cut: replace(cut, takes="another"), "is not on the bench"),
        (lambda cut: replace(cut, fence=5000.0), "must be larger"),
        (lambda cut: replace(cut, fence=cut.fence - 1.0), "must lie at the fence"),
    ],
)
def test_a_wrong_cut_is_found(spoil: object, says: str) -> None:
    assert callable(spoil)
    wrong = (spoil(GOOD[0]), *GOOD[1:])
    with pytest.raises(DesignError, match=says):
        bench("lid", (1207.0, 613.0), wrong, kerf=KERF, wood=WOOD)
