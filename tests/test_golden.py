"""The golden sheets, and proof that a spoiled one is noticed."""

from __future__ import annotations

import pytest

from tests.golden import GOLDEN, differences, drawn


@pytest.fixture(scope="module")
def sheets() -> dict[str, dict[str, str]]:
    return {name: drawn(name) for name in sorted({name for name, _ in GOLDEN.values()})}


@pytest.mark.parametrize("file", GOLDEN, ids=lambda file: file.name)
def test_sheet_is_as_it_was_looked_at(file: object, sheets: dict[str, dict[str, str]]) -> None:
    path = next(f for f in GOLDEN if f == file)
    name, title = GOLDEN[path]
    expected = path.read_text("utf-8") if path.is_file() else None
    found = differences(expected, sheets[name].get(title), path.name)
    assert not found, "\n".join(found[:40])


@pytest.mark.parametrize(
    ("old", "new"),
    [("x1=", "x9="), ("17.7", "17.6"), ("</text>", "")],
    ids=["a moved line", "a changed digit", "a lost tag"],
)
def test_a_spoiled_sheet_is_noticed(old: str, new: str) -> None:
    whole = '<svg><line x1="3"/>\n<text>17.7</text>\n</svg>'
    spoiled = whole.replace(old, new, 1)
    assert spoiled != whole
    assert differences(whole, spoiled, "sheet")
    assert not differences(whole, whole, "sheet")


def test_missing_and_empty_files_are_noticed() -> None:
    assert differences(None, "<svg/>", "sheet") == ["sheet: the golden file is missing"]
    assert differences("<svg/>", None, "sheet") == ["sheet: no such sheet was drawn"]
    assert differences("", "<svg/>", "sheet") == ["sheet: the golden file is empty"]
