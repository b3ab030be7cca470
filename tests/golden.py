"""Golden sheets: a few whole sheets kept as files, compared byte for byte.

A golden file says that something changed; only the values and properties in the other tests say
whether it is right. Renew them with ``python -m tests.golden``, look at each as a picture, and
say in the commit why it changed.
"""

from __future__ import annotations

import difflib
import importlib.util
from pathlib import Path

from cabinet.design import Design
from drawings.scene import scene
from drawings.sheet_set import Imprint, number_of, sheets
from drawings.sheet_svg import sheet_svg

ROOT = Path(__file__).parents[1]
# File by example and title of the sheet; the README shows the first.
GOLDEN = {
    ROOT / "examples" / "pictures" / "greenhouse-top.svg": ("greenhouse_wall_unit", "Top"),
    ROOT / "tests" / "pictures" / "greenhouse-section.svg": (
        "greenhouse_wall_unit",
        "Section A–A",
    ),
    ROOT / "tests" / "pictures" / "rack-frame-rail.svg": ("pottery_drying_rack", "Frame rail"),
}


def example(name: str) -> Design:
    """The design of an example script, without running its job."""
    spec = importlib.util.spec_from_file_location(name, ROOT / "examples" / f"{name}.py")
    if spec is None or spec.loader is None:
        raise FileNotFoundError(name)
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    design: Design = module.unit
    return design


def drawn(name: str) -> dict[str, str]:
    """All sheets of an example as SVG, by title."""
    design = example(name)
    imprint = Imprint(owner="The workshop", number=number_of(design.name), creator="The workshop")
    return {sheet.title: sheet_svg(sheet) for sheet in sheets(scene(design.resolve()), imprint)}


def differences(expected: str | None, found: str | None, name: str) -> list[str]:
    """How two files differ, as readable lines; empty if they are the same bytes.

    Args:
        expected: The golden file, None if it is missing.
        found: What was drawn, None if there is no such sheet.
        name: Name for the report.
    """
    if expected is None:
        return [f"{name}: the golden file is missing"]
    if found is None:
        return [f"{name}: no such sheet was drawn"]
    if not expected.strip():
        return [f"{name}: the golden file is empty"]
    return list(
        difflib.unified_diff(
            expected.splitlines(), found.splitlines(), f"golden {name}", f"drawn {name}", n=0
        )
    )


def renew() -> None:
    """Write all golden files anew."""
    cache: dict[str, dict[str, str]] = {}
    for file, (name, title) in GOLDEN.items():
        cache.setdefault(name, drawn(name))
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(cache[name][title].encode("utf-8"))


if __name__ == "__main__":
    renew()
