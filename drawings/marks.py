"""What is drawn, as plain data in paper millimetres, before any file format is chosen.

A mark decides nothing: where it lies and how it looks is settled before it is made, and the
writers for SVG and PDF only write it down. The sheet's frame has its origin at the top left
and y growing downwards, as SVG has.

Marks are made by the tens of thousands, each twice: where a view is drawn and where it lies on
the sheet. So they are structs, frozen and checked as dataclasses are, and made and pickled in a
fraction of the time; being trees of plain data they need no search for garbage either.
"""

from __future__ import annotations

from enum import Enum
from math import inf, isfinite

from msgspec import Struct

from cabinet.quantity import finite, positive


class Ink(Enum):
    """A kind of line or area; the value is the class by which an SVG tells it apart.

    The widths and dashes that belong to each stand in ``drawings.style`` and nowhere else.
    """

    VISIBLE = "visible"
    HIDDEN = "hidden"
    CUT = "cut"
    HATCH = "hatch"
    CENTRE = "centre"
    CUTTING_PLANE = "cutting-plane"
    PHANTOM = "phantom"
    NARROW = "narrow"
    DIMENSION_LINE = "dimension-line"
    EXTENSION = "extension"
    LEADER = "leader"
    ARROW = "arrow"
    RING = "ring"
    FRAME = "frame"
    GRID = "grid"
    TABLE = "table"
    PATTERN = "pattern"
    SOLID = "solid"
    SHADE = "shade"


class PaperPoint(Struct, frozen=True, gc=False):
    """A point on the sheet in mm: x to the right from the left edge, y down from the top."""

    x: float
    y: float

    def __post_init__(self) -> None:
        # Sheets hold tens of thousands of points, so the usual case is told at once.
        if type(self.x) is float and type(self.y) is float and isfinite(self.x + self.y):
            return
        finite("paper point", "x", self.x)
        finite("paper point", "y", self.y)

    def moved(self, dx: float, dy: float) -> PaperPoint:
        """This point moved by (dx, dy) mm."""
        return PaperPoint(self.x + dx, self.y + dy)


class PaperBox(Struct, frozen=True, gc=False):
    """An upright rectangle on the sheet in mm, ``left <= right`` and ``top <= bottom``."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        """Width in mm."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Height in mm."""
        return self.bottom - self.top

    @property
    def middle(self) -> PaperPoint:
        """Its middle."""
        return PaperPoint((self.left + self.right) / 2, (self.top + self.bottom) / 2)

    def moved(self, dx: float, dy: float) -> PaperBox:
        """This box moved by (dx, dy) mm."""
        return PaperBox(self.left + dx, self.top + dy, self.right + dx, self.bottom + dy)

    def united(self, other: PaperBox) -> PaperBox:
        """The smallest box around both."""
        return PaperBox(
            min(self.left, other.left),
            min(self.top, other.top),
            max(self.right, other.right),
            max(self.bottom, other.bottom),
        )

    def shared(self, other: PaperBox) -> PaperBox:
        """What both cover; nothing lies in it if they lie apart."""
        return PaperBox(
            max(self.left, other.left),
            max(self.top, other.top),
            min(self.right, other.right),
            min(self.bottom, other.bottom),
        )

    def overlaps(self, other: PaperBox, gap: float = 0.0) -> bool:
        """Whether the two come nearer to each other than ``gap`` mm."""
        return (
            self.left < other.right + gap
            and other.left < self.right + gap
            and self.top < other.bottom + gap
            and other.top < self.bottom + gap
        )

    def contains(self, other: PaperBox) -> bool:
        """Whether ``other`` lies inside this box, edges included (0.01 mm of grace)."""
        return (
            self.left <= other.left + 0.01
            and self.top <= other.top + 0.01
            and other.right <= self.right + 0.01
            and other.bottom <= self.bottom + 0.01
        )

    def grown(self, margin: float) -> PaperBox:
        """This box with ``margin`` mm added on all four sides."""
        return PaperBox(
            self.left - margin, self.top - margin, self.right + margin, self.bottom + margin
        )


class Anchor(Enum):
    """Which point of a text its position names (SVG's ``text-anchor``)."""

    START = "start"
    MIDDLE = "middle"
    END = "end"

    # Members are single, so they are told apart by identity: far faster than by name.
    __hash__ = object.__hash__


class Line(Struct, frozen=True, gc=False):
    """A straight line."""

    start: PaperPoint
    end: PaperPoint
    ink: Ink


class Polyline(Struct, frozen=True, gc=False):
    """Straight lines one after another; ``closed`` joins the last point to the first.

    With ``Ink.ARROW``, ``Ink.SOLID`` or ``Ink.SHADE`` the inside is filled.
    """

    points: tuple[PaperPoint, ...]
    ink: Ink
    closed: bool = False


class Circle(Struct, frozen=True, gc=False):
    """A full circle; ``radius`` in mm."""

    centre: PaperPoint
    radius: float
    ink: Ink

    def __post_init__(self) -> None:
        _check_size("circle", "radius", self.radius)


class Arc(Struct, frozen=True, gc=False):
    """Part of a circle, from ``start`` to ``end`` degrees with ``start < end``.

    Angles are counted from the sheet's x axis towards its y axis, which is clockwise as seen.
    """

    centre: PaperPoint
    radius: float
    start: float
    end: float
    ink: Ink

    def __post_init__(self) -> None:
        _check_size("arc", "radius", self.radius)


class Text(Struct, frozen=True, gc=False):
    """One line of lettering.

    Attributes:
        at: The end, middle or start of its baseline, as ``anchor`` says.
        text: What it says.
        height: Height of its capitals in mm (ISO 3098), not the size of the font.
        anchor: Which point ``at`` is.
        is_upright: True reads from the bottom of the sheet; False is turned by 90 degrees
            counter-clockwise and reads from the right (ISO 129-1).
        is_bold: Set in the heavier cut, for headings.
    """

    at: PaperPoint
    text: str
    height: float
    anchor: Anchor = Anchor.START
    is_upright: bool = True
    is_bold: bool = False

    def __post_init__(self) -> None:
        _check_size("text", "height", self.height)

    def put(self, at: PaperPoint) -> Text:
        """This text at another place."""
        return Text(at, self.text, self.height, self.anchor, self.is_upright, self.is_bold)


class Group(Struct, frozen=True, gc=False):
    """Marks that belong together: a view, a dimension, a table.

    Attributes:
        name: Class of the group: ``view``, ``dimension``, ``title-block`` ...
        marks: What it holds, drawn in this order.
        title: What it is, in words; "" for none.
        description: The scale of a view (``1:5``); "" for none.
        is_not_to_scale: The group's dimension line does not measure its value.
    """

    name: str
    marks: tuple[Mark, ...]
    title: str = ""
    description: str = ""
    is_not_to_scale: bool = False


def _check_size(owner: str, name: str, size: float) -> None:
    # Sheets hold thousands of rings and texts, so the usual case is told at once.
    if type(size) is not float or not 0.0 < size < inf:
        positive(owner, name, size)


Mark = Line | Polyline | Circle | Arc | Text | Group
