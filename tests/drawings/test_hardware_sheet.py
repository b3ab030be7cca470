"""The sheet of blanks and hardware, with few findings and with many."""

from __future__ import annotations

import pytest

from cabinet.findings import Finding, Severity
from drawings.hardware_sheet import hardware_sheet
from drawings.lint import lint_sheet
from drawings.marks import Group, Mark, Text
from drawings.paper import drawing_space
from drawings.scene import scene
from drawings.title_block import TitleBlock
from tests.golden import example

BLOCK = TitleBlock(
    legal_owner="The workshop",
    identification_number="X-05",
    date_of_issue="",
    sheet_number=5,
    sheet_count=9,
    title="x",
    approval_person="",
    creator="The workshop",
    document_type="x",
)
FINDING = Finding(
    rule="thin-web",
    severity=Severity.ERROR,
    parts=("left side",),
    where=None,
    found=0.9,
    limit=3.0,
    sentence="left side: only 0.9 mm of wood are left between the slot for the back rail and the "
    "rebate for the base; at least 3 mm must be left, so move one",
)


def words(marks: tuple[Mark, ...]) -> list[str]:
    """All that is written."""
    found: list[str] = []
    for mark in marks:
        if isinstance(mark, Text):
            found.append(mark.text)
        elif isinstance(mark, Group):
            found += words(mark.marks)
    return found


@pytest.mark.parametrize("count", [0, 1, 7, 60])
def test_any_number_of_findings_fits(count: int) -> None:
    made = scene(example("greenhouse_wall_unit").resolve())
    sheet = hardware_sheet(made, BLOCK, (FINDING,) * count)
    assert lint_sheet(sheet.marks, drawing_space(sheet.size)) == ()
    written = " ".join(words(sheet.marks))
    assert ("Findings" in written) is (count > 0)
    assert ("more, in job.json" in written) is (count == 60)
    for needed in ("shelf pin 5 × 20", "1184.6 × 298", "Rags"):
        assert needed in written
