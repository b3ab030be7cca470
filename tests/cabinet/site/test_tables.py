"""The report as tables for sheets."""

from __future__ import annotations

import pytest

from cabinet.errors import SizeError
from cabinet.site.report import site_report
from cabinet.site.tables import SiteTable, site_tables
from cabinet.site.walls import SolidMasonry
from tests.cabinet.site.units import closed, holds, standing

MASONRY = SolidMasonry(anchor_pull=1500.0, anchor_shear=1800.0)


def test_tables_of_a_hung_and_a_standing_unit() -> None:
    """Those that have something to say, every cell a word or a figure."""
    hung = site_tables(site_report(closed(), (holds(grate=5.0),), MASONRY))
    assert [table.title.split(",")[0] for table in hung] == [
        "Shelves",
        "On the wall",
        "Cleat and carcass",
        "Fastened",
        "Air",
    ]
    stand = site_tables(site_report(standing(), (holds(shelf=20.0),)))
    assert "Tipping forwards (common practice, no source)" in [t.title for t in stand]
    for table in (*hung, *stand):
        assert all(cell.strip() for row in table.rows for cell in row)
        assert all("nan" not in cell and "inf" not in cell for row in table.rows for cell in row)


def test_the_shelf_row_holds_the_report() -> None:
    """Span, load and sag as computed."""
    report = site_report(standing(), (holds(shelf=20.0),))
    check = next(c for c in report.held if c.name == "shelf")
    row = next(r for r in site_tables(report)[0].rows if r[0] == "shelf")
    assert row[2] == f"{check.span:.0f}"
    assert row[3] == "20.0"
    assert row[4].startswith(f"{check.sag.likely:.1f} (")


def test_the_report_says_what_it_assumes() -> None:
    """Which creep rule, no promise, the wall left out."""
    said = " ".join(site_report(standing(), (holds(shelf=20.0),)).assumptions)
    for words in ("1 + k_def", "never a promise", "leave out the wall", "without friction"):
        assert words in said


def test_a_ragged_table_is_refused() -> None:
    """A row of another length."""
    with pytest.raises(SizeError, match="cells"):
        SiteTable(title="t", columns=("a", "b"), rows=(("1",),))
