"""Contact and fit, measured by moving one of two bodies."""

from __future__ import annotations

import pytest

from cabinet.board import At, Surface
from cabinet.checks.contact import HAIR, contacts, fits
from cabinet.features import Groove
from cabinet.frame import Side
from cabinet.joint import Gap, Touch
from tests.cabinet.checks.planted import block, blocks

TOUCH = (Touch(one="one", other="other"),)


@pytest.mark.parametrize(
    ("apart", "count"), [(0.0, 0), (HAIR - 0.005, 0), (HAIR + 0.006, 1), (1.7, 1)]
)
def test_contact_within_a_hair(apart: float, count: int) -> None:
    """Boards end to end: touching, a little less than a hair apart, a little more."""
    unit = blocks(
        block("one", (0, 0, 0), (313.0, 211.0)),
        block("other", (313.0 + apart, 0, 0), (157.0, 211.0)),
        proofs=TOUCH,
    )
    found = list(contacts(unit))
    assert len(found) == count
    if found:
        assert found[0].found == pytest.approx(apart)
        assert f"{apart:.2f} mm apart" in found[0].sentence


def test_a_groove_between_them_is_no_contact() -> None:
    """The boxes meet, but only over a groove."""
    groove = Groove(
        name="groove", surface=Surface.A, near=At(Surface.LOW, 31.0), width=91.0, depth=6.0
    )
    unit = blocks(
        block("one", (11, 41, 17.6), (91.0, 61.0)),
        block("other", (0, 0, 0), (313.0, 211.0), groove),
        proofs=TOUCH,
    )
    (finding,) = contacts(unit)
    assert "surfaces do not meet" in finding.sentence


def a_fit(width: float, gap: float) -> list[str]:
    """What is said of a strip of 40 in a groove, with a gap stated at the front."""
    groove = Groove(
        name="groove",
        surface=Surface.A,
        near=At(Surface.LOW, 31.0),
        width=width,
        depth=6.0,
    )
    side = (width - 40.0) / 2
    unit = blocks(
        block("strip", (11, 31 + side, 17.6 - 6.0), (91.0, 40.0)),
        block("base", (0, 0, 0), (313.0, 211.0), groove),
        proofs=(Gap(inner="strip", outer="base", side=Side.FRONT, gap=gap),),
    )
    return [finding.sentence for finding in fits(unit)]


def test_a_clearance_as_stated() -> None:
    """0.25 on each side of 40 in 40.5, within a hair either way."""
    assert a_fit(40.5, 0.25) == []
    assert a_fit(40.5, 0.25 + HAIR - 0.004) == []
    assert a_fit(40.5, 0.25 - HAIR + 0.004) == []


def test_a_clearance_too_small_or_too_large() -> None:
    """A little more than a hair off, and it says which way."""
    (tight,) = a_fit(40.5, 0.25 + HAIR + 0.004)
    assert "has less" in tight
    (loose,) = a_fit(40.5, 0.25 - HAIR - 0.004)
    assert "has more" in loose
    assert "strip should have 0.23 mm towards the front in base" in loose
