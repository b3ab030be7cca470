"""The wall behind a unit, as the maker found it: studs, masonry or hollow.

Nobody sees into a wall: what is told here decides the check, and none of it is a promise.
Places along the wall are told as X of the unit; only the wall of a room tells them along itself,
and a unit's setting there turns one into the other.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from cabinet.errors import UnknownNameError
from cabinet.quantity import finite, positive, within


@dataclass(frozen=True, slots=True, kw_only=True)
class TimberStuds:
    """Timber studs behind a board.

    Attributes:
        spacing: Centre to centre, mm (600 at most by the house-builders' standard NHBC 6.3.9;
            400 and 406 are usual as well).
        first: Centre of one stud: X in the unit, or x along a room's wall; None if they are not
            found yet.
        width: Of a stud as the screw meets it, mm.
        depth: Of a stud behind the board, mm.
        board: Thickness of the board before it, mm; it carries nothing.
        density_kg_m3: Characteristic density; 310 is EN 338 class C16, from memory.
    """

    spacing: float
    first: float | None = None
    width: float = 38.0
    depth: float = 63.0
    board: float = 12.5
    density_kg_m3: float = 310.0

    def __post_init__(self) -> None:
        within("studs", "spacing", self.spacing, 200.0, 1200.0)
        if self.first is not None:
            finite("studs", "place of the first stud", self.first)
        within("studs", "width", self.width, 30.0, 200.0)
        within("studs", "depth", self.depth, 30.0, 400.0)
        within("studs", "board", self.board, 0.0, 60.0)
        within("studs", "density", self.density_kg_m3, 200.0, 900.0, unit="kg/m3")

    def centres(self, low: float, high: float) -> tuple[float, ...]:
        """X of the studs whose centres lie between two places; none if they are not found."""
        if self.first is None:
            return ()
        least = math.ceil((low - self.first) / self.spacing - 1e-9)
        most = math.floor((high - self.first) / self.spacing + 1e-9)
        return tuple(self.first + i * self.spacing for i in range(least, most + 1))

    def certain(self, length: float) -> int:
        """Studs that lie within a length wherever it is: floor(length / spacing)."""
        return math.floor(max(length, 0.0) / self.spacing + 1e-9)


@dataclass(frozen=True, slots=True, kw_only=True)
class SolidMasonry:
    """Solid brick, block or concrete, and the anchor chosen for it.

    Attributes:
        anchor_pull: Working load of one anchor outwards in this masonry by its maker, N.
        anchor_shear: The same along the wall, N.
        plaster: Thickness of the plaster, which carries nothing, mm.
        depth: How deep the anchor sits in the masonry, mm.
    """

    anchor_pull: float
    anchor_shear: float
    plaster: float = 15.0
    depth: float = 40.0

    def __post_init__(self) -> None:
        positive("masonry", "pull of an anchor", self.anchor_pull, unit="N")
        positive("masonry", "shear of an anchor", self.anchor_shear, unit="N")
        within("masonry", "plaster", self.plaster, 0.0, 80.0)
        positive("masonry", "depth of the anchor", self.depth)


@dataclass(frozen=True, slots=True, kw_only=True)
class HollowWall:
    """Board or hollow block without studs where they are needed.

    Attributes:
        anchor_rating: Load of one anchor by its maker, kg; half of it is taken, since a cleat
            stands off the wall (makers' statements: self-drilling plugs about 8, metal
            expanding 15 to 20, toggles 40).
    """

    anchor_rating: float

    def __post_init__(self) -> None:
        within("hollow wall", "rating of an anchor", self.anchor_rating, 0.5, 100.0, unit="kg")


Wall = TimberStuds | SolidMasonry | HollowWall


def require_wall(owner: str, wall: object) -> Wall:
    """The wall, if it is one.

    Raises:
        UnknownNameError: it is none of the kinds known; the message lists them.
    """
    if not isinstance(wall, Wall):
        raise UnknownNameError(
            f"{owner}: the wall is {wall!r}, an unknown wall; say what it is: "
            "TimberStuds(spacing=...), SolidMasonry(anchor_pull=..., anchor_shear=...) or "
            "HollowWall(anchor_rating=...)",
            part=owner,
            value=wall,
            limit=("TimberStuds", "SolidMasonry", "HollowWall"),
        )
    return wall
