"""Rows of holes anywhere, told from named edges."""

from __future__ import annotations

import pytest

from cabinet import Design, hole_row
from cabinet.checks.level import holes_in_unit
from cabinet.errors import UnknownNameError
from tests.strategies import small


def test_a_row_lies_where_it_is_told() -> None:
    """On the outer face of the left side, from its front edge and its bottom end (1 proud)."""
    box = small()
    row = hole_row(
        "left side",
        name="hooks",
        face="left",
        first=("front", 41.0),
        line=("bottom", 97.0),
        count=3,
        pitch=53.0,
        diameter=6.0,
        depth=9.0,
    )
    unit = Design("hooks", (box.component, row)).resolve()
    places = holes_in_unit(unit.by_name["left side"], "hooks")
    assert [p.y for p in places] == pytest.approx([41, 94, 147])
    assert {round(p.z, 6) for p in places} == {96.0}
    assert {round(p.x, 6) for p in places} == {0.0}


@pytest.mark.parametrize(
    ("face", "first", "line"), [("outside", "front", "top"), ("left", "right", "top")]
)
def test_sides_must_exist_and_differ(face: str, first: str, line: str) -> None:
    with pytest.raises(UnknownNameError) as caught:
        hole_row(
            "left side",
            name="hooks",
            face=face,
            first=(first, 41.0),
            line=(line, 97.0),
            count=3,
            pitch=53.0,
            diameter=6.0,
        )
    assert "hooks" in str(caught.value)
