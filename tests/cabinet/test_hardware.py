"""Hardware as data."""

from __future__ import annotations

import pytest

from cabinet.errors import SizeError
from cabinet.features import Biscuit
from cabinet.frame import Side, UnitPoint
from cabinet.hardware import BiscuitPiece, Hardware, Rod, Screw


def test_screw_core() -> None:
    """0.7 of the thread's diameter; EN 1995-1-1 8.7.1 allows 0.6 to 0.75 (from memory)."""
    screw = Screw(diameter=4.5, length=45.0, head_diameter=9.0)
    assert 0.6 * 4.5 <= screw.core <= 0.75 * 4.5
    assert screw.clearance == 5.0


@pytest.mark.parametrize(("inside", "outside"), [(4.5, 4.4), (18.0, 18.1)])
def test_screw_head(inside: float, outside: float) -> None:
    """A head is no thinner than its thread."""
    Screw(diameter=4.5, length=45.0, head_diameter=inside)
    with pytest.raises(SizeError):
        Screw(diameter=4.5, length=45.0, head_diameter=outside)


def test_sizes_are_positive() -> None:
    """No bar without a length, no screw without a thread."""
    with pytest.raises(SizeError):
        Rod(diameter=8.0, length=0.0)
    with pytest.raises(SizeError):
        Rod(diameter=-8.0, length=613.0)
    with pytest.raises(SizeError):
        Screw(diameter=0.0, length=45.0, head_diameter=9.0)


def test_boxes_by_hand() -> None:
    """A rod to the left ends where it points; a screw is as wide as its head."""
    rod = Hardware(
        name="bar",
        article="bar",
        body=Rod(diameter=8.0, length=613.0),
        at=UnitPoint(700, 20, 10),
        axis=Side.LEFT,
    )
    assert (tuple(rod.box.low), tuple(rod.box.high)) == ((87, 16, 6), (700, 24, 14))
    screw = Hardware(
        name="screw",
        article="screw",
        body=Screw(diameter=5.0, length=45.0, head_diameter=10.0),
        at=UnitPoint(100, 200, 300),
        axis=Side.BACK,
    )
    assert (tuple(screw.box.low), tuple(screw.box.high)) == ((95, 200, 295), (105, 245, 305))
    biscuit = Hardware(
        name="biscuit",
        article="biscuit",
        body=BiscuitPiece(biscuit=Biscuit.NO_0, along=Side.TOP),
        at=UnitPoint(100, 200, 300),
        axis=Side.RIGHT,
    )
    assert biscuit.box.size == (15.0, 4.0, 47.0)


@pytest.mark.parametrize("field", ["name", "article"])
def test_names_are_not_blank(field: str) -> None:
    """Lists print both."""
    names = {"name": "bar", "article": "round bar 8"} | {field: " "}
    with pytest.raises(SizeError):
        Hardware(
            name=names["name"],
            article=names["article"],
            body=Rod(diameter=8.0, length=613.0),
            at=UnitPoint(0, 0, 0),
            axis=Side.LEFT,
        )
