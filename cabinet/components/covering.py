"""A covering glued on the top, and openings for air and leads through top, base or back.

Lengths in mm in the unit's frame.
"""

from __future__ import annotations

from cabinet.components.carcass import Carcass, require_carcass
from cabinet.design import Component
from cabinet.errors import DesignError, UnknownNameError
from cabinet.frame import Side, UnitPoint
from cabinet.joint import Butt, Opening
from cabinet.part import board_part
from cabinet.quantity import numbers, one_of, positive, short_name, tenths, within
from cabinet.stock import Stock, require_stock

# A covering is cut this much larger on every edge and trimmed when it is glued (common
# practice, no source: 5 to 10).
OVERSIZE = 8.0
# A plug goes through an opening with this much room all round.
PLUG_ROOM = 5.0


def top_covering(carcass: Carcass, stock: Stock) -> Component:
    """A sheet glued over the whole top, sides' ends included.

    Args:
        carcass: Its ``covering`` must be the sheet's measured thickness.
        stock: Sheet.

    Raises:
        DesignError: the carcass kept another thickness free for it.
    """
    require_carcass("covering", carcass)
    require_stock("covering", "stock", stock)
    if abs(carcass.covering - stock.measured) > 1e-9:
        raise DesignError(
            f"covering: the sheet measures {stock.measured:g} mm but the carcass was made for "
            f"{carcass.covering:g} mm; give the carcass covering={stock.measured:g}",
            part="covering",
            value=carcass.covering,
            limit=stock.measured,
        )
    box = carcass.box
    part = board_part(
        name="covering",
        role="covering",
        stock=stock,
        box_low=UnitPoint(box.low.x, box.low.y, box.high.z),
        length=(Side.RIGHT, box.size[0]),
        width=(Side.BACK, box.size[1]),
        fence=Side.FRONT,
        stop=Side.LEFT,
        shows=(Side.TOP, Side.FRONT, Side.LEFT, Side.RIGHT),
        group="covering",
        oversize=OVERSIZE,
    )
    joints = tuple(Butt(one="covering", other=name) for name in ("top", "left side", "right side"))
    return Component(parts=(part,), joints=joints)


_TELL = {"left": Side.LEFT, "right": Side.RIGHT, "front": Side.FRONT, "back": Side.BACK}


def pill(
    carcass: Carcass,
    through: str,
    *,
    name: str,
    length: float,
    width: float,
    **told: float,
) -> Component:
    """A pill-shaped opening, its centre told from the two nearest edges of the carcass.

    Args:
        carcass: The carcass.
        through: ``top`` (with its covering) or ``base``.
        name: What it is for.
        length: Clear size from left to right, mm.
        width: Clear size from front to back, mm.
        **told: ``left`` or ``right``, and ``front`` or ``back``: from that edge of the carcass to
            the opening's centre, mm.

    Raises:
        UnknownNameError: another board, an unknown edge, or not one edge of each pair.
        SizeError: sizes that are not positive, or a centre outside the carcass.
    """
    short_name("pill", "name", name)
    require_carcass(name, carcass)
    one_of(name, "board", through, ("top", "base"))
    positive(name, "length", length)
    positive(name, "width", width)
    place: dict[int, tuple[Side, float]] = {}
    for edge, distance in told.items():
        side = _TELL[one_of(name, "edge", edge, tuple(_TELL))]
        extent = carcass.box.size[side.axis]
        within(name, f"distance from the {edge}", distance, 0.0, extent, why="the carcass's size")
        place[side.axis] = (side, carcass.box.face(side) - side.sign * distance)
    if len(told) != 2 or set(place) != {0, 1}:
        raise UnknownNameError(
            f"{name}: its centre is told from {', '.join(told) or 'no edge'}; name one of left "
            "and right, and one of front and back",
            part=name,
            value=tuple(told),
            limit=("left or right", "front or back"),
        )
    boards = ("top", "covering") if through == "top" and carcass.covering else (through,)
    return Component(
        joints=(
            Opening(
                name=name,
                through=boards,
                centre=UnitPoint(place[0][1], place[1][1], 0.0),
                size=(length, width),
                corner_radius=min(length, width) / 2,
                told_from=(place[0][0], place[1][0]),
            ),
        )
    )


def plug_pill(
    carcass: Carcass, through: str, *, name: str, plug: tuple[float, float], **told: float
) -> Component:
    """A pill that a plug of this length and width passes through, with room all round.

    The pill is as wide as the plug and the room, and so long that the plug's corners pass its
    round ends.

    Args:
        carcass: The carcass.
        through: ``top`` (with its covering) or ``base``.
        name: What it is for.
        plug: Length and width of the plug's body, mm.
        **told: Where its centre is, as for ``pill``.

    Raises:
        UnknownNameError: as for ``pill``.
        SizeError: as for ``pill``.
    """
    short_name("pill", "name", name)
    plug_length, plug_width = numbers(name, "plug", plug, count=2)
    wide = positive(name, "plug width", plug_width) + 2 * PLUG_ROOM
    # Half a chord of the round end at the plug's half width tells how far the ends must go.
    radius = wide / 2
    end = radius - (radius**2 - (plug_width / 2) ** 2) ** 0.5
    long = positive(name, "plug length", plug_length) + 2 * (end + 1.0)
    long = tenths(max(long, wide), up=True)
    return pill(carcass, through, name=name, length=long, width=wide, **told)
