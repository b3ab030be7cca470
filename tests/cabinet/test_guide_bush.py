"""Guide bush and cutter, against worked examples.

The examples are those of a cutter maker's published tip on template guides and of two
woodworkers' forum pages on the same, read in stored copies.
"""

from __future__ import annotations

import math

import pytest

from cabinet.errors import SizeError
from cabinet.workshop import GuideBush


@pytest.mark.parametrize(
    ("bush", "cutter", "offset"),
    [(30.0, 10.0, 10.0), (15.0, 9.0, 3.0), (0.75 * 25.4, 0.5 * 25.4, 25.4 / 8)],
)
def test_offset_of_the_published_examples(bush: float, cutter: float, offset: float) -> None:
    """30 bush, 10 cutter: 10 mm; 15/9: 3 mm; 3/4 in bush, 1/2 in cutter: 1/8 in."""
    assert GuideBush(diameter=bush, cutter=cutter).offset == pytest.approx(offset, abs=1e-9)


def test_inside_cut_of_the_published_example() -> None:
    """8 x 4 in finished, 3/4 in bush, 1/4 in cutter: template 8 1/2 x 4 1/2 in."""
    router = GuideBush(diameter=0.75 * 25.4, cutter=0.25 * 25.4)
    assert router.template_opening(8 * 25.4) == pytest.approx(8.5 * 25.4, abs=1e-9)
    assert router.template_opening(4 * 25.4) == pytest.approx(4.5 * 25.4, abs=1e-9)


@pytest.mark.parametrize("bush", [0.0, -30.0, math.nan, math.inf])
def test_a_bush_must_be_a_size(bush: float) -> None:
    with pytest.raises(SizeError):
        GuideBush(diameter=bush, cutter=8.0)


@pytest.mark.parametrize("cutter", [17.0, 17.1])
def test_the_cutter_must_go_through_the_bush(cutter: float) -> None:
    with pytest.raises(SizeError) as caught:
        GuideBush(diameter=17.0, cutter=cutter)
    assert (caught.value.value, caught.value.limit) == (cutter, 17.0)


def test_the_cutter_must_go_into_the_corner() -> None:
    router = GuideBush(diameter=17.0, cutter=9.0)
    assert router.require_corner("grille", 4.5) == 4.5
    with pytest.raises(SizeError, match="grille") as caught:
        router.require_corner("grille", 4.4)
    assert caught.value.limit == pytest.approx(8.8)
