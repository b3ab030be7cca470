"""From which side a board is looked at, told by board axes instead of vectors."""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.board import BoardBox, Surface, surface_at
from cabinet.frame import Vector
from drawings.curves import ViewBounds
from drawings.view_frame import ViewFrame

Axis = tuple[int, int]
"""A board axis (0 length, 1 width, 2 thickness) and the sense (+1 or -1) in which it is seen."""


def _vector(axis: Axis) -> Vector:
    parts = [0.0, 0.0, 0.0]
    parts[axis[0]] = float(axis[1])
    return parts[0], parts[1], parts[2]


def _against(axis: Axis) -> Axis:
    return axis[0], -axis[1]


@dataclass(frozen=True, slots=True)
class Look:
    """A board seen square on.

    Attributes:
        right: Board axis seen running to the right.
        up: Board axis seen running up.
    """

    right: Axis
    up: Axis

    @property
    def toward(self) -> Axis:
        """Board axis that points to the viewer: right x up."""
        third = 3 - self.right[0] - self.up[0]
        is_cyclic = (self.right[0] + 1) % 3 == self.up[0]
        return third, self.right[1] * self.up[1] * (1 if is_cyclic else -1)

    @property
    def surface(self) -> Surface:
        """The surface of the board that is seen."""
        return surface_at(*self.toward)

    @property
    def frame(self) -> ViewFrame:
        """The same for projecting."""
        return ViewFrame(_vector(self.right), _vector(self.up))

    def along(self, axis: Axis, coordinate: float) -> float:
        """View coordinate, mm, of a board coordinate on the axis seen right or up."""
        return coordinate * axis[1]

    def bounds(self, box: BoardBox) -> ViewBounds:
        """Where a box of the board is seen, mm in the view."""
        spans = [sorted((box.low[axis] * sign, box.high[axis] * sign)) for axis, sign in self.axes]
        (left, right), (bottom, top) = spans
        return ViewBounds(left, bottom, right, top)

    @property
    def axes(self) -> tuple[Axis, Axis]:
        """The axis seen running right, then the one seen running up."""
        return self.right, self.up

    # Neighbouring views in first-angle projection (ISO 5456-2): what is seen from above lies
    # below, what is seen from the left lies at the right.

    @property
    def from_above(self) -> Look:
        """The view placed below this one."""
        return Look(self.right, _against(self.toward))

    @property
    def from_below(self) -> Look:
        """The view placed above this one."""
        return Look(self.right, self.toward)

    @property
    def from_left(self) -> Look:
        """The view placed at the right of this one."""
        return Look(self.toward, self.up)

    @property
    def from_right(self) -> Look:
        """The view placed at the left of this one."""
        return Look(_against(self.toward), self.up)


FACE_A = Look((0, 1), (1, 1))
FACE_B = Look((0, 1), (1, -1))
