"""Mistakes planted on a resolved unit, as a script of the maker's cannot make them."""

from __future__ import annotations

from dataclasses import replace

from cabinet.components.carcass import carcass
from cabinet.components.shelves import board_shelf, pin_rows
from cabinet.design import Component, Design, Unit
from cabinet.features import Feature
from cabinet.findings import Finding
from cabinet.frame import Side, UnitPoint
from cabinet.joint import Proof
from cabinet.part import Board, Part, board_part
from tests.strategies import BIRCH, a_part


def a_unit() -> Unit:
    """A carcass with a divider, pin rows and a shelf: 813 by 587 by 303."""
    box = carcass(width=813, height=587, depth=303, stock=BIRCH, dividers=1)
    pins = pin_rows(box)
    shelf = board_shelf(pins.bay(1), hole=4, stock=BIRCH, name="shelf")
    return Design("planted", (box.component, pins.component, shelf)).resolve()


def with_part(unit: Unit, part: Part) -> Unit:
    """The unit with another part in place of the one of that name."""
    parts = tuple(part if each.name == part.name else each for each in unit.parts)
    assert parts != unit.parts
    return replace(unit, parts=parts)


def shifted(part: Part, side: Side, distance: float) -> Part:
    """The part somewhere else."""
    placement = part.placement
    return replace(
        part, placement=replace(placement, origin=placement.origin.moved(side, distance))
    )


def with_board(part: Part, board: Board) -> Part:
    """The part made to another board, its start where it was."""
    return replace(part, board=board)


def with_feature(part: Part, old: Feature, new: Feature) -> Part:
    """The part with one feature exchanged."""
    features = tuple(new if each == old else each for each in part.board.features)
    assert features != part.board.features
    return with_board(part, replace(part.board, features=features))


def one_board(*features: Feature) -> Unit:
    """A unit of one board of 613 by 287 by 17.6."""
    return Design("one", (Component(parts=(a_part(*features),)),)).resolve()


def block(
    name: str, low: tuple[float, float, float], size: tuple[float, float], *features: Feature
) -> Part:
    """A board lying flat, its length to the right and its width to the back."""
    part = board_part(
        name=name,
        role=name,
        stock=BIRCH,
        box_low=UnitPoint(*low),
        length=(Side.RIGHT, size[0]),
        width=(Side.BACK, size[1]),
        fence=Side.FRONT,
        stop=Side.LEFT,
    )
    return part.with_features(*features)


def blocks(*parts: Part, proofs: tuple[Proof, ...] = ()) -> Unit:
    """A unit of boards and of what they must prove."""
    return Design("blocks", (Component(parts=parts, proofs=proofs),)).resolve()


def rules(found: tuple[Finding, ...]) -> list[str]:
    """The rules of findings, each once, sorted."""
    return sorted({finding.rule for finding in found})
