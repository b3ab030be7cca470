"""Where a feature of a part lies in the unit."""

from __future__ import annotations

from cabinet.features import Feature
from cabinet.frame import BoardPoint, UnitBox, UnitPoint
from cabinet.part import Part


def feature_box(part: Part, feature: Feature) -> UnitBox:
    """The box around what a feature takes away, in the unit, mm."""
    box = feature.box(part.board.size)
    one = part.placement.board_to_unit(BoardPoint(*box.low))
    two = part.placement.board_to_unit(BoardPoint(*box.high))
    pairs = [sorted(pair) for pair in zip(one, two, strict=True)]
    return UnitBox(
        low=UnitPoint(*(low for low, _ in pairs)), high=UnitPoint(*(high for _, high in pairs))
    )


__all__ = ["feature_box"]
