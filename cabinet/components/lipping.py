"""Solid lippings on a board's edges: the board is cut smaller by what each edge gets.

Strips on front and back run the whole length; those at the ends stand between them. Lengths in
mm in the unit's frame.
"""

from __future__ import annotations

from collections.abc import Mapping

from cabinet.errors import DesignError, KindError
from cabinet.frame import Side, UnitPoint
from cabinet.joint import Butt, Joint
from cabinet.part import Part, board_part
from cabinet.quantity import one_of, within
from cabinet.stock import Stock, require_stock

EDGES = {"front": Side.FRONT, "back": Side.BACK, "left": Side.LEFT, "right": Side.RIGHT}
# A strip thinner than this is not planed but bought as edging (common practice).
LEAST_LIPPING = 2.0


def lipped(part: Part, lippings: Mapping[str, Stock]) -> tuple[tuple[Part, ...], tuple[Joint, ...]]:
    """A level board with lippings within its finished size.

    Args:
        part: The board as it would be without lippings; it must lie level, and no feature may
            be on it yet.
        lippings: Solid wood, planed to the strip's thickness, for each edge that gets one:
            ``front``, ``back``, ``left``, ``right``.

    Returns:
        The smaller board and its strips, and the glued joints between them.

    Raises:
        UnknownNameError: an edge of another name.
        SizeError: a strip too thin, or strips that leave no board.
        DesignError: the board stands upright or is already worked.
    """
    if part.placement.up.axis != 2 or part.board.features:
        raise DesignError(
            f"{part.name}: lippings go on a level board before anything else is done to it",
            part=part.name,
            value=part.placement.up.value,
            limit="a level, plain board",
        )
    right = 'a stock by edge, such as {"front": solid_wood("ash", 8, 680)}'
    if not isinstance(lippings, Mapping):
        raise KindError(
            f"{part.name}: lipping is a {type(lippings).__name__}; give {right}",
            part=part.name,
            value=lippings,
            limit=right,
        )
    thick: dict[Side, float] = {}
    for name, stock in lippings.items():
        side = EDGES[one_of(part.name, "edge", name, tuple(EDGES))]
        half = part.box.size[side.axis] / 2
        thick[side] = within(
            part.name,
            f"{name} lipping",
            require_stock(part.name, f"{name} lipping", stock).measured,
            LEAST_LIPPING,
            half - 1.0,
            why="half of it",
        )
    core = _core(part, thick)
    strips = tuple(
        _strip(part, EDGES[name], stock, thick) for name, stock in sorted(lippings.items())
    )
    joints = tuple(Butt(one=strip.name, other=part.name) for strip in strips)
    return (core, *strips), joints


def _core(part: Part, thick: Mapping[Side, float]) -> Part:
    box, board, placement = part.box, part.board, part.placement
    low = box.low
    for side in (Side.FRONT, Side.LEFT):
        low = low.moved(side.opposite, thick.get(side, 0.0))
    taken = {axis: sum(t for side, t in thick.items() if side.axis == axis) for axis in range(2)}
    along, across = placement.along, placement.across
    shows = (part.side(surface) for surface in board.shows)
    return board_part(
        name=part.name,
        role=part.role,
        stock=board.stock,
        box_low=low,
        length=(along, box.size[along.axis] - taken[along.axis]),
        width=(across, box.size[across.axis] - taken[across.axis]),
        layers=board.layers,
        grain=board.grain,
        fence=part.side(board.fence),
        stop=part.side(board.stop),
        shows=tuple(side for side in shows if side not in thick),
        group=part.group,
    )


def _strip(part: Part, side: Side, stock: Stock, thick: Mapping[Side, float]) -> Part:
    """One strip, as high as the board is thick; its own board's thickness is the strip's."""
    box = part.box
    low = [box.low.x, box.low.y, box.low.z]
    if side.sign > 0:
        low[side.axis] = box.face(side) - stock.measured
    is_long = side.axis == 1
    length = box.size[0] if is_long else box.size[1]
    if not is_long:
        low[1] += thick.get(Side.FRONT, 0.0)
        length -= thick.get(Side.FRONT, 0.0) + thick.get(Side.BACK, 0.0)
    along = Side.RIGHT if is_long else Side.BACK
    return board_part(
        name=f"{part.name} {side.value} lipping",
        role=f"{side.value} lipping",
        stock=stock,
        box_low=UnitPoint(*low),
        length=(along, length),
        width=(Side.TOP, box.size[2]),
        fence=Side.BOTTOM,
        stop=along.opposite,
        shows=(side,),
        group=part.group,
    )
