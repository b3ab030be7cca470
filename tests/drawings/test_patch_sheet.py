"""The drawing of a patch."""

from __future__ import annotations

import pytest

from cabinet.making.outline import Rect
from cabinet.making.patch import Patch
from drawings.patch_sheet import patch_sheet, patch_sheets
from tests.cabinet.making.racks import luck_of
from tests.drawings.cut_plans import check_sheets, greenhouse_plan, groups, patched, texts


def test_a_patch_is_told_in_full() -> None:
    plan, _ = patched()
    (sheet,) = patch_sheets(plan)
    check_sheets([sheet])
    figures = {group.title for group in groups(sheet.marks, "dimension")}
    assert {"98", "48", "34", "24", "5"} <= figures
    written = " ".join(text.text for text in texts(sheet.marks))
    assert "plug 6 thick, 1 proud" in written
    assert "front edge (below)" in written
    assert "hole on face A" in written


def test_no_patch_no_sheet() -> None:
    assert patch_sheets(greenhouse_plan()) == ()


@pytest.mark.parametrize("seed", range(20))
def test_patches_anywhere_can_be_read(seed: int) -> None:
    luck = luck_of(seed)
    length, width = luck.uniform(80, 1800), luck.uniform(60, 600)
    long, wide = luck.uniform(8, min(length, 300)), luck.uniform(8, min(width, 120))
    patch = Patch(
        blank="cleat, unit half, layer 1 of 2",
        item=14,
        face="face A",
        flaw="breakout on face A",
        why="it meets a flaw on the other face, together deeper than half of the board",
        length=length,
        width=width,
        thickness=17.7,
        recess=Rect(
            luck.choice([0.0, length - long, luck.uniform(0, length - long)]),
            luck.choice([0.0, width - wide, luck.uniform(0, width - wide)]),
            long,
            wide,
        ),
        end="bottom end",
        edge="front edge",
        depth=5.5,
        grain_along_length=True,
        plug=(long, wide, 6.5),
        source="rest 3 of a leftover with a rather long name",
    )
    check_sheets([patch_sheet(patch, 1)])
