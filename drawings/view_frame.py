"""From where a view is seen: its two directions in the frame of what is drawn.

The standing frames are for a unit whose X runs to the right, Y from the front to the back and
Z up, and for views laid out in first-angle projection.
Source: ISO 5456-2:1996 (first angle: plan below the front view, the view from the left at its
right), ISO 5456-3:1996 (isometric: three axes 120 degrees apart, equal scales).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from cabinet.errors import SizeError
from cabinet.frame import Vector
from cabinet.quantity import finite
from drawings.curves import ViewPoint

_SQUARE = 1e-9


@dataclass(frozen=True, slots=True)
class ViewFrame:
    """Two directions at right angles, as unit vectors in the frame of the model.

    Attributes:
        right: The direction that the viewer sees running to the right (u).
        up: The direction that the viewer sees running up (v).

    Raises:
        SizeError: one is not of length 1, or they are not at right angles.
    """

    right: Vector
    up: Vector

    def __post_init__(self) -> None:
        for name, vector in (("right", self.right), ("up", self.up)):
            for part in vector:
                finite("view frame", name, part, unit="")
            if abs(_dot(vector, vector) - 1.0) > _SQUARE:
                raise SizeError(
                    f"view frame: {name} is {vector}; its length must be 1", value=vector, limit=1.0
                )
        if abs(_dot(self.right, self.up)) > _SQUARE:
            raise SizeError(
                f"view frame: right {self.right} and up {self.up} must be at right angles",
                value=(self.right, self.up),
                limit=90.0,
            )

    @property
    def toward(self) -> Vector:
        """The direction from what is seen to the viewer: right x up."""
        (a, b, c), (d, e, f) = self.right, self.up
        return b * f - c * e, c * d - a * f, a * e - b * d

    def model_to_view(self, point: Vector) -> ViewPoint:
        """Where a point of the model (mm) is seen."""
        return ViewPoint(_dot(point, self.right), _dot(point, self.up))

    def nearness(self, point: Vector) -> float:
        """How far a point of the model lies towards the viewer, mm from the model's origin."""
        return _dot(point, self.toward)


def _dot(one: Vector, other: Vector) -> float:
    return one[0] * other[0] + one[1] * other[1] + one[2] * other[2]


_HALF, _SIXTH = math.sqrt(1 / 2), math.sqrt(1 / 6)

FRONT = ViewFrame((1.0, 0.0, 0.0), (0.0, 0.0, 1.0))
BACK = ViewFrame((-1.0, 0.0, 0.0), (0.0, 0.0, 1.0))
PLAN = ViewFrame((1.0, 0.0, 0.0), (0.0, 1.0, 0.0))
FROM_BELOW = ViewFrame((1.0, 0.0, 0.0), (0.0, -1.0, 0.0))
# Standing at the left and looking to the right, one has the front at one's right hand.
FROM_LEFT = ViewFrame((0.0, -1.0, 0.0), (0.0, 0.0, 1.0))
FROM_RIGHT = ViewFrame((0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
# From front, left and above: the faces that front view, view from the left and plan show.
# Lengths along the axes are foreshortened by sqrt(2/3), as in a true projection.
ISOMETRIC = ViewFrame((_HALF, -_HALF, 0.0), (_SIXTH, _SIXTH, 2 * _SIXTH))
