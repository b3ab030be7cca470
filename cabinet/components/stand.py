"""What a standing unit stands on: a plinth or feet below the carcass.

The carcass keeps its origin, so the floor lies below z = 0. Lengths in mm in the unit's frame.
"""

from __future__ import annotations

from cabinet.components.carcass import Carcass, require_carcass
from cabinet.design import Component
from cabinet.frame import Side, UnitBox, UnitPoint
from cabinet.joint import Biscuits, Butt, Joint, biscuit_for
from cabinet.part import Part, board_part
from cabinet.quantity import positive, within
from cabinet.stock import Stock, require_stock


def plinth(carcass: Carcass, *, stock: Stock, height: float, setback: float = 50.0) -> Component:
    """Four boards on edge under the base, set back at the front.

    Args:
        carcass: What stands on it.
        stock: Board.
        height: Of the plinth, mm.
        setback: From the carcass's front edge to the plinth, for toes, mm.

    Raises:
        SizeError: a height or setback out of range.
    """
    require_carcass("plinth", carcass)
    require_stock("plinth", "stock", stock)
    positive("plinth", "height", height)
    box = carcass.box
    within("plinth", "setback", setback, 0.0, box.size[1] / 2, why="half of the carcass's depth")
    thick = stock.measured
    depth = box.size[1] - setback
    low = UnitPoint(box.low.x, box.low.y + setback, box.low.z - height)
    parts: list[Part] = []
    for name, corner, across_len in (
        ("plinth front", low, box.size[0]),
        ("plinth back", low.moved(Side.BACK, depth - thick), box.size[0]),
    ):
        is_front = name.endswith("front")
        parts.append(
            board_part(
                name=name,
                role="plinth rail",
                stock=stock,
                box_low=corner,
                length=(Side.RIGHT if is_front else Side.LEFT, across_len),
                width=(Side.TOP, height),
                fence=Side.TOP,
                stop=Side.LEFT if is_front else Side.RIGHT,
                shows=(Side.FRONT,) if is_front else (Side.BACK,),
                group="plinth",
            )
        )
    for name, x in (("plinth left", low.x), ("plinth right", box.high.x - thick)):
        is_left = name.endswith("left")
        parts.append(
            board_part(
                name=name,
                role="plinth end",
                stock=stock,
                box_low=UnitPoint(x, low.y + thick, low.z),
                length=(Side.FRONT if is_left else Side.BACK, depth - 2 * thick),
                width=(Side.TOP, height),
                fence=Side.TOP,
                stop=Side.BACK if is_left else Side.FRONT,
                shows=(Side.LEFT if is_left else Side.RIGHT,),
                group="plinth",
            )
        )
    joints: list[Joint] = [Butt(one=part.name, other="base") for part in parts]
    biscuit = biscuit_for("plinth", room=height, thick=thick)
    joints += [
        Biscuits(
            one=end,
            other=rail,
            biscuit=biscuit,
            count=1,
            level=Side.LEFT if end.endswith("left") else Side.RIGHT,
        )
        for end in ("plinth left", "plinth right")
        for rail in ("plinth front", "plinth back")
    ]
    return Component(parts=tuple(parts), joints=tuple(joints), outline=(_below(carcass, height),))


def _below(carcass: Carcass, height: float) -> UnitBox:
    """The space under the carcass, down to the floor."""
    low, high = carcass.box.low, carcass.box.high
    return UnitBox(
        low=UnitPoint(low.x, low.y, low.z - height), high=UnitPoint(high.x, high.y, low.z)
    )


def feet(
    carcass: Carcass, *, stock: Stock, height: float, size: float = 60.0, inset: float = 30.0
) -> Component:
    """Four square blocks glued under the base.

    Args:
        carcass: What stands on them.
        stock: Solid wood, as thick as the feet are high.
        height: Of the feet, mm; the stock's measured thickness.
        size: Side of a foot seen from above, mm.
        inset: From the carcass's edges, mm.

    Raises:
        SizeError: a height that is not the stock's thickness, or feet that do not fit.
    """
    require_carcass("feet", carcass)
    require_stock("feet", "stock", stock)
    within("feet", "height", height, stock.measured, stock.measured, why="the stock's thickness")
    box = carcass.box
    within("feet", "inset", inset, 0.0, min(box.size[0], box.size[1]) / 2 - 20.0)
    most = min(box.size[0], box.size[1]) / 2 - inset
    within("feet", "size", size, 20.0, most, why="half of the base less the inset")
    xs = (("left", box.low.x + inset), ("right", box.high.x - inset - size))
    ys = (("front", box.low.y + inset), ("back", box.high.y - inset - size))
    parts = tuple(
        board_part(
            name=f"{where_y} {where_x} foot",
            role="foot",
            stock=stock,
            box_low=UnitPoint(x, y, box.low.z - height),
            length=(Side.RIGHT, size),
            width=(Side.BACK, size),
            fence=Side.FRONT,
            stop=Side.LEFT,
            shows=(Side.FRONT, Side.LEFT, Side.RIGHT, Side.BACK),
            group="feet",
        )
        for where_x, x in xs
        for where_y, y in ys
    )
    return Component(
        parts=parts,
        joints=tuple(Butt(one=p.name, other="base") for p in parts),
        outline=(_below(carcass, height),),
    )
