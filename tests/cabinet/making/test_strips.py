"""Blanks of one width as strips."""

from __future__ import annotations

import pytest

from cabinet.making.blanks import blanks
from cabinet.making.guillotine import Axis, Node
from cabinet.making.strips import Strip, parted, strips
from tests.cabinet.making.racks import plain_unit

KERF = 3.0


def made(longest: float = 2480.0) -> tuple[Strip, ...]:
    unit = plain_unit([(571.3, 64.7), (391.9, 64.7), (613.0, 287.0), (211.1, 64.7)])
    return strips(blanks(unit), longest, KERF)


def test_blanks_of_one_width_make_a_strip_with_a_kerf_between_each_two() -> None:
    strip, alone = made()
    assert [blank.length for blank in strip.blanks] == [571.3, 391.9, 211.1]
    assert strip.piece.length == pytest.approx(571.3 + 391.9 + 211.1 + 2 * KERF)
    assert strip.piece.width == 64.7
    assert [blank.length for blank in alone.blanks] == [613.0]


def test_a_strip_is_no_longer_than_the_board() -> None:
    lengths = [strip.piece.length for strip in made(longest=800.0)]
    assert max(lengths) <= 800.0
    assert sum(len(strip.blanks) for strip in made(longest=800.0)) == 4


def test_a_strip_in_the_plan_is_cut_into_its_blanks() -> None:
    strip, _ = made()
    node = Node(length=strip.piece.length, width=64.7, piece=strip.piece.name)
    cut = parted(node, {strip.piece.name: strip})
    assert cut.axis is Axis.LENGTH
    assert [part.piece for part in cut.parts] == [blank.name for blank in strip.blanks]
    assert sum(p.length for p in cut.parts) + 2 * KERF == pytest.approx(cut.length)
    turned = Node(length=64.7, width=strip.piece.length, piece=strip.piece.name)
    assert parted(turned, {strip.piece.name: strip}).axis is Axis.WIDTH
