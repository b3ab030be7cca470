"""What is handed to a run is checked before anything is computed or written."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from cabinet import Design, birch_plywood, carcass
from cabinet.errors import CabinetError
from drawings import write_job

BOX = carcass(width=613, height=287, depth=241, stock=birch_plywood(18, 17.6))
UNIT = Design("Small box", (BOX.component,), is_hung=False)


@pytest.mark.parametrize(
    ("name", "value", "right"),
    [
        ("folder", None, "a path"),
        ("folder", 3, "a path"),
        ("folder", b"x", "a path"),
        ("earlier", 3, "a path"),
        ("owner", None, "one line"),
        ("creator", "\n", "one line"),
        ("date", "31.12.2026", "'2031-05-09'"),
        ("date", 20261231, "'2031-05-09'"),
        ("uses", None, "UseCase("),
        ("uses", "damp", "UseCase("),
        ("uses", ["damp"], "UseCase("),
        ("wall", "brick", "SolidMasonry("),
        ("place", 3, "Setting("),
        ("moved_from", 3, "Setting("),
        ("lift", 1400, "Lift("),
        ("workshop", None, "Workshop("),
        ("rack", (), "Rack("),
        ("rates", 40, "Rates("),
        ("prices", {"glue": 1}, "Prices("),
        ("as_draft", "yes", "True or False"),
        ("design", None, "a Design"),
        ("design", BOX, "a Design"),
        ("design", BOX.component, "a Design"),
    ],
    ids=str,
)
def test_what_is_handed_over_is_refused_by_name(
    tmp_path: Path, name: str, value: object, right: str
) -> None:
    """One error that names it and says what would be right; nothing is written."""
    told: dict[str, Any] = {"design": UNIT, "folder": tmp_path / "x.job", "tell": None}
    with pytest.raises(CabinetError) as caught:
        write_job(**{**told, name: value})
    assert name in str(caught.value)
    assert right in str(caught.value)
    assert list(tmp_path.iterdir()) == []
