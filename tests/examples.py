"""The example scripts as designs, without writing their job folders."""

from __future__ import annotations

import runpy
import sys
from functools import cache
from pathlib import Path
from types import ModuleType
from unittest.mock import patch

from cabinet.design import Design, Unit

EXAMPLES = Path(__file__).parents[1] / "examples"


@cache
def example_design(name: str) -> Design:
    """The design that an example script describes.

    Args:
        name: The script's name without its ending.
    """
    # The model is tested without the drawings that the script would have made of it.
    stand_in = ModuleType("drawings")
    stand_in.write_job = None  # type: ignore[attr-defined]
    with patch.dict(sys.modules, {"drawings": stand_in}):
        names = runpy.run_path(str(EXAMPLES / f"{name}.py"))
    design = names["unit"]
    assert isinstance(design, Design)
    return design


@cache
def example_unit(name: str) -> Unit:
    """The same, resolved."""
    return example_design(name).resolve()
