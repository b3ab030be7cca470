"""The pieces of a unit as they are exported: each solid once, at each of its places."""

from __future__ import annotations

from cabinet.design import Unit
from cabinet.solids import hardware_location, hardware_shape, location, solid
from drawings.exports import PlacedSolid
from drawings.scene import hardware_colour


def placed_solids(unit: Unit) -> tuple[PlacedSolid, ...]:
    """All parts, then all hardware; equal boards share one solid.

    Args:
        unit: The resolved unit.

    Raises:
        KernelError: the kernel failed.
    """
    parts = (
        PlacedSolid(
            name=part.name,
            solid=solid(part.board),
            location=location(part.placement),
            colour=part.board.stock.colour,
        )
        for part in unit.parts
    )
    hardware = (
        PlacedSolid(
            name=item.name,
            solid=hardware_shape(item.body, item.axis),
            location=hardware_location(item),
            colour=hardware_colour(item),
        )
        for item in unit.hardware
    )
    return (*parts, *hardware)
