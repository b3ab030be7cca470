"""The lamination rule against the printed table of all-birch plywood.

Source: Handbook of Finnish Plywood, Finnish Forest Industries Federation 2002/2007, ISBN
952-9506-66-X, Table 3-2, all-birch: mean thickness in mm, characteristic bending strength
along and across and mean modulus along and across in N/mm2 (table from memory).
"""

from __future__ import annotations

import pytest

from cabinet.errors import SizeError, UnknownNameError
from cabinet.site.plywood import birch_laminate, plies_of

# nominal: plies, mean thickness, fm along, fm across, E along, E across
TABLE_3_2 = [
    (4, 3, 3.6, 65.9, 10.6, 16471, 1029),
    (6.5, 5, 6.4, 50.9, 29.0, 12737, 4763),
    (9, 7, 9.2, 45.6, 32.1, 11395, 6105),
    (12, 9, 12.0, 42.9, 33.2, 10719, 6781),
    (15, 11, 14.8, 41.3, 33.8, 10316, 7184),
    (18, 13, 17.6, 40.2, 34.1, 10048, 7452),
    (21, 15, 20.4, 39.4, 34.3, 9858, 7642),
    (24, 17, 23.2, 38.9, 34.4, 9717, 7783),
    (27, 19, 26.0, 38.4, 34.5, 9607, 7893),
    (30, 21, 28.8, 38.1, 34.6, 9519, 7981),
]


@pytest.mark.parametrize("row", TABLE_3_2, ids=lambda row: f"{row[0]} mm")
def test_table_3_2_to_the_printed_digit(row: tuple[float, ...]) -> None:
    """All forty numbers, as printed."""
    nominal, plies, thickness, *values = row
    assert plies_of(nominal) == plies
    board = birch_laminate(int(plies))
    assert round(board.thickness, 1) == thickness
    found = [round(board.strength_along, 1), round(board.strength_across, 1)]
    assert [*found, round(board.along), round(board.across)] == values


def test_along_and_across_sum_up_to_one_ply() -> None:
    """Every row of Table 3-2 sums up to 17,500 N/mm2."""
    for row in TABLE_3_2:
        assert row[5] + row[6] == pytest.approx(17_500, abs=1)
        board = birch_laminate(int(row[1]))
        assert board.along + board.across == pytest.approx(17_500)


def test_doubled_boards_are_more_alike_both_ways() -> None:
    """Glued face to face, the stiff faces also lie in the middle, where they count little."""
    single, double = birch_laminate(13), birch_laminate(13, layers=2)
    assert double.thickness == pytest.approx(2 * single.thickness)
    assert 8_750 < double.along < single.along
    assert double.along + double.across == pytest.approx(17_500)


@pytest.mark.parametrize("plies", [12, 2, 23])
def test_plies_out_of_range_are_refused(plies: int) -> None:
    """The rule holds for 3 to 21 plies, an odd number."""
    with pytest.raises(SizeError, match="plies"):
        birch_laminate(plies)


def test_a_thickness_without_a_row_is_refused() -> None:
    """The message names it and lists those that exist."""
    with pytest.raises(UnknownNameError, match=r"birch plywood 16 mm.*15, 18") as caught:
        plies_of(16)
    assert caught.value.value == 16
