"""An endless lattice of round holes, each cut by an outline by an independent library."""

from __future__ import annotations

import math

import shapely

from cabinet.board import BoardSize
from cabinet.features import Pattern, Perforation
from cabinet.set_out import lie

# A round hole as a polygon with so many corners; its area is made right by its radius.
_CORNERS = 720


def disc(x: float, y: float, radius: float) -> shapely.Polygon:
    """A regular polygon as large as the disc."""
    step = 2 * math.pi / _CORNERS
    out = radius * math.sqrt(step / math.sin(step))
    return shapely.Polygon(
        [(x + out * math.cos(k * step), y + out * math.sin(k * step)) for k in range(_CORNERS)]
    )


def clipped(
    perforation: Perforation, size: BoardSize, box: shapely.Polygon, *, moved: float = 0.0
) -> float:
    """Area in a box of an endless lattice of holes, every hole asked by itself.

    The lattice is made of its two vectors; one hole stands where the first lines meet, moved
    along the length by so much.
    """
    how, pitch = lie(perforation, size), perforation.pitch
    angle = 60.0 if perforation.pattern is Pattern.STAGGERED else 90.0
    lean, rise = pitch * math.cos(math.radians(angle)), pitch * math.sin(math.radians(angle))
    reach = 3 + math.ceil((size.length + size.width) / pitch)
    area = 0.0
    for row in range(-reach, reach):
        y = how.across.first + row * rise
        if not -pitch < y < size.width + pitch:
            continue
        for number in range(-2 * reach, 2 * reach):
            x = how.along.first + moved + number * pitch + row * lean
            if -pitch < x < size.length + pitch:
                area += disc(x, y, perforation.diameter / 2).intersection(box).area
    return area
