"""What ties sides and dividers to rail and top, worked out by hand."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from cabinet.joint import Biscuits, Housing
from cabinet.site.carcass_joint import biscuit_strength, carcass_joint, joint_share
from cabinet.site.cleat_model import cleat_of
from tests.cabinet.site.units import holds, hung
from tests.examples import example_unit


def test_ties_by_hand() -> None:
    """Two ends of the top, 6 let in, 287 deep, 17.6 thick; a biscuit at each end of the rail.

    Glue in the end of a board 0.5 N/mm2; a biscuit 4 N/mm2 over its length and thickness.
    """
    unit = hung()
    cleat = cleat_of(unit)
    assert cleat is not None
    joint = carcass_joint(unit, cleat)
    assert joint.held == ("top", "top rail")
    by_pair = {frozenset(tie[:2]): tie[2] for tie in joint.ties}
    assert by_pair[frozenset({"top", "left side"})] == pytest.approx(0.5 * 287.0 * 17.6)
    biscuits = next(
        j
        for j in unit.joints
        if isinstance(j, Biscuits) and set(j.parts) == {"top rail", "left side"}
    )
    size = biscuits.biscuit
    assert by_pair[frozenset({"top rail", "left side"})] == pytest.approx(
        4.0 * size.length * size.thickness * biscuits.count
    )
    assert joint.strength == pytest.approx(sum(by_pair.values()))
    assert biscuit_strength(56.0, 4.0, 3) == pytest.approx(2688.0)


def test_a_divider_is_sheared_along_both_walls_of_its_housing() -> None:
    """6 let into the top on both sides, over its housing's length."""
    unit = example_unit("greenhouse_wall_unit")
    cleat = cleat_of(unit)
    assert cleat is not None
    ties = {frozenset(t[:2]): t[2] for t in carcass_joint(unit, cleat).ties}
    over = unit.by_name["divider"].box.overlap(unit.by_name["top"].box)
    assert ties[frozenset({"divider", "top"})] == pytest.approx(0.5 * 2 * over[1] * over[2])


def test_use_by_the_code() -> None:
    """1000 N on 3000 N characteristic, long-term in a dry room: 1000 / (3000 x 0.7 / 1.3).

    Source: EN 1995-1-1, Table 3.1 (plywood, service class 1, long-term 0.70) as printed in the
        ICE Manual of Structural Design: Buildings, Table 19.9; 1.3 for connections from memory.
    """
    unit = hung()
    cleat = cleat_of(unit)
    assert cleat is not None
    joint = replace(carcass_joint(unit, cleat), ties=(("a", "b", 3000.0),))
    assert joint_share(joint, 1000.0, holds(shelf=1.0)) == pytest.approx(1000 / (3000 * 0.7 / 1.3))
    assert math.isinf(joint_share(replace(joint, ties=()), 1000.0, holds(shelf=1.0)))


def test_unglued_housings_count_for_nothing() -> None:
    """Only the biscuits are left."""
    unit = hung()
    joints = tuple(replace(j, is_glued=False) if isinstance(j, Housing) else j for j in unit.joints)
    cleat = cleat_of(unit)
    assert cleat is not None
    less = carcass_joint(replace(unit, joints=joints), cleat)
    assert {frozenset(t[:2]) for t in less.ties} == {
        frozenset({"top rail", "left side"}),
        frozenset({"top rail", "right side"}),
    }
