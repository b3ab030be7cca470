"""Beams against printed results, printed factors, and an independent frame program."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
from anastruct.fem.system import SystemElements

from cabinet.errors import DesignError, SizeError
from cabinet.site.beam import Beam, Bent, LineLoad, PointLoad, Stiffness, Support, solve
from cabinet.site.beam_table import Case, deflection

SPAN, EI, GA, LOAD = 1234.5, 3.1e9, 4.2e5, 777.0
SIMPLE = (Support(0.0), Support(SPAN))
CLAMPED = (Support(0.0, is_clamped=True), Support(SPAN, is_clamped=True))
CANTILEVER = (Support(0.0, is_clamped=True),)


def uniform(supports: tuple[Support, ...], *, shear: float = GA, length: float = SPAN) -> Beam:
    """A beam of one stretch without loads."""
    stretch = Stiffness(start=0.0, end=length, bending=EI, shear=shear)
    return Beam(stretches=(stretch,), supports=supports)


def bent(
    supports: tuple[Support, ...],
    *,
    points: tuple[PointLoad, ...] = (),
    lines: tuple[LineLoad, ...] = (),
) -> Bent:
    """The uniform beam under loads."""
    plain = uniform(supports)
    return solve(Beam(stretches=plain.stretches, supports=supports, points=points, lines=lines))


# Wood Handbook FPL-GTR-190 (2010), Table 9-1, page 9-2: kb, ks for delta = kb W L^3/(E I) +
# ks W L/(G A'), W the total load; then supports, loads and the place where it is told.
ALL_OVER = (LineLoad(0.0, SPAN, LOAD / SPAN),)
MIDDLE = (PointLoad(SPAN / 2, LOAD),)
QUARTERS = (PointLoad(SPAN / 4, LOAD / 2), PointLoad(3 * SPAN / 4, LOAD / 2))
TABLE_9_1 = [
    pytest.param(5 / 384, 1 / 8, SIMPLE, (), ALL_OVER, SPAN / 2, id="simple uniform"),
    pytest.param(1 / 384, 1 / 8, CLAMPED, (), ALL_OVER, SPAN / 2, id="clamped uniform"),
    pytest.param(1 / 48, 1 / 4, SIMPLE, MIDDLE, (), SPAN / 2, id="simple middle"),
    pytest.param(1 / 192, 1 / 4, CLAMPED, MIDDLE, (), SPAN / 2, id="clamped middle"),
    pytest.param(11 / 768, 1 / 8, SIMPLE, QUARTERS, (), SPAN / 2, id="quarter points, middle"),
    pytest.param(1 / 96, 1 / 8, SIMPLE, QUARTERS, (), SPAN / 4, id="quarter points, at a load"),
    pytest.param(1 / 8, 1 / 2, CANTILEVER, (), ALL_OVER, SPAN, id="cantilever uniform"),
    pytest.param(1 / 3, 1.0, CANTILEVER, (PointLoad(SPAN, LOAD),), (), SPAN, id="cantilever end"),
]


@pytest.mark.parametrize(("kb", "ks", "supports", "points", "lines", "at"), TABLE_9_1)
def test_table_9_1(
    kb: float,
    ks: float,
    supports: tuple[Support, ...],
    points: tuple[PointLoad, ...],
    lines: tuple[LineLoad, ...],
    at: float,
) -> None:
    """The solver gives the handbook's factors for bending and shear together."""
    printed = kb * LOAD * SPAN**3 / EI + ks * LOAD * SPAN / GA
    found = bent(supports, points=points, lines=lines).deflection(at)
    assert found == pytest.approx(printed, rel=1e-9)


# The same rows, printed factors beside the case of our table.
PRINTED = [
    (Case.SIMPLE_UNIFORM, 5 / 384, 1 / 8),
    (Case.CLAMPED_UNIFORM, 1 / 384, 1 / 8),
    (Case.SIMPLE_MIDDLE, 1 / 48, 1 / 4),
    (Case.CLAMPED_MIDDLE, 1 / 192, 1 / 4),
    (Case.SIMPLE_QUARTERS, 11 / 768, 1 / 8),
    (Case.CANTILEVER_UNIFORM, 1 / 8, 1 / 2),
    (Case.CANTILEVER_END, 1 / 3, 1.0),
]


@pytest.mark.parametrize(("case", "kb", "ks"), PRINTED, ids=[c[0].name for c in PRINTED])
def test_closed_forms_of_table_9_1(case: Case, kb: float, ks: float) -> None:
    """The closed form with the printed factors, load, span and stiffness all different."""
    printed = kb * 313.0 * 871.0**3 / 2.9e8 + ks * 313.0 * 871.0 / 5.7e4
    assert deflection(case, 313.0, 871.0, 2.9e8, 5.7e4) == pytest.approx(printed, rel=1e-12)
    assert set(Case) == {row[0] for row in PRINTED}


def test_two_equal_spans() -> None:
    """Uniform load on two equal spans: w L^4 / 185 E I; middle reaction 10/8 w L.

    Source: any text on strength of materials; the 185 is rounded there (184.6), so 0.3 %.
    """
    supports = (Support(0.0), Support(SPAN), Support(2 * SPAN))
    plain = uniform(supports, shear=math.inf, length=2 * SPAN)
    line = LineLoad(0.0, 2 * SPAN, 0.7)
    found = solve(Beam(stretches=plain.stretches, supports=supports, lines=(line,)))
    assert abs(found.greatest_deflection()[1]) == pytest.approx(
        0.7 * SPAN**4 / (185 * EI), rel=0.003
    )
    assert found.reactions[1] == pytest.approx(10 / 8 * 0.7 * SPAN)
    assert found.moment(SPAN) == pytest.approx(-0.7 * SPAN**2 / 8)


def test_three_point_loads_and_self_weight() -> None:
    """R1 = R2 = 12,676.5 N and M = 8,882.4 N m; I = 66,666,667 mm4, mass 36 kg.

    Source: amesweb.info, timber beam example: 100 x 200 mm, 3 m, 600 kg/m3, E 8 GPa, 10 kN at
    0.5 m, 5 kN at 1.5 m, 10 kN at 2.5 m (its statement prints b and h swapped).
    """
    second_moment = 100 * 200**3 / 12
    assert second_moment == pytest.approx(66_666_667, abs=0.5)
    mass = 0.1 * 0.2 * 3.0 * 600
    assert mass == pytest.approx(36)
    beam = Beam(
        stretches=(Stiffness(start=0.0, end=3000.0, bending=8000 * second_moment),),
        supports=(Support(0.0), Support(3000.0)),
        points=(PointLoad(500.0, 10_000), PointLoad(1500.0, 5000), PointLoad(2500.0, 10_000)),
        lines=(LineLoad(0.0, 3000.0, 0.1177),),
    )
    found = solve(beam)
    assert found.reactions == pytest.approx((12_676.5, 12_676.5), abs=0.1)
    assert found.greatest_moment()[1] / 1000 == pytest.approx(8882.4, abs=0.05)


@pytest.mark.parametrize(("intensity", "printed"), [(0.75, 7.501), (1.0, 10.001)])
def test_worked_floor_beam_with_shear(intensity: float, printed: float) -> None:
    """Sag 7.501 mm at 0.75 N/mm and 10.001 mm at 1.0 N/mm, shear part included.

    Source: Benoit, Legrand, Tastet, Calcul de structures en bois (2008), example 2.3.1, as
    coded in xcfem/xc: C24, 75 x 200 mm, 4.5 m, E 11 GPa, G 690 MPa.
    """
    stretch = Stiffness(
        start=0.0, end=4500.0, bending=11_000 * 75 * 200**3 / 12, shear=690 * 75 * 200 * 5 / 6
    )
    supports = (Support(0.0), Support(4500.0))
    line = LineLoad(0.0, 4500.0, intensity)
    found = solve(Beam(stretches=(stretch,), supports=supports, lines=(line,)))
    assert found.greatest_deflection()[1] == pytest.approx(printed, abs=0.0005)


def test_plywood_shelf_by_hand() -> None:
    """800 x 300 x 18 mm, E 8000, 200 N spread: I = 145,800 mm4 and 1.143 mm.

    Source: delta = 5 w L^4 / 384 E I, any text on strength of materials.
    """
    assert deflection(Case.SIMPLE_UNIFORM, 200.0, 800.0, 8000.0 * 145_800) == pytest.approx(
        1.143, abs=0.0005
    )


# Stepped stiffness, loads over parts, several supports: as frames of an independent program.
STEPS = ((0.0, 210.0, 4.1e8), (210.0, 655.0, 1.7e8), (655.0, 1013.0, 2.9e8))
FRAMES = [
    pytest.param((0.0, 1013.0), (), id="simple"),
    pytest.param((90.0, 830.0), (), id="overhanging"),
    pytest.param((0.0, 437.0, 1013.0), (), id="two spans"),
    pytest.param((0.0,), (0.0,), id="cantilever"),
    pytest.param((0.0, 1013.0), (0.0, 1013.0), id="clamped"),
    pytest.param((0.0, 300.0, 650.0, 1013.0), (1013.0,), id="three spans, one end clamped"),
]
POINTS = ((333.0, 190.0), (871.0, 415.0))
PART = (120.0, 530.0, 0.83)


def framed(supports: tuple[float, ...], clamps: tuple[float, ...]) -> SystemElements:
    """The stepped beam as the frame program sees it, solved."""
    places = {0.0, 1013.0, *supports, *(p for p, _ in POINTS), *PART[:2]}
    places |= {s for s, _, _ in STEPS}
    nodes = sorted(places)
    frame = SystemElements(EA=1e9)
    for start, end in pairwise(nodes):
        stiff = next(ei for s, e, ei in STEPS if s <= (start + end) / 2 <= e)
        frame.add_element(location=[[start, 0.0], [end, 0.0]], EI=stiff)
    for at in supports:
        node = nodes.index(at) + 1
        if at in clamps:
            frame.add_support_fixed(node_id=node)
        elif at == supports[0]:
            frame.add_support_hinged(node_id=node)
        else:
            frame.add_support_roll(node_id=node)
    for at, force in POINTS:
        frame.point_load(node_id=nodes.index(at) + 1, Fy=-force)
    for number, (start, end) in enumerate(pairwise(nodes), start=1):
        if PART[0] < (start + end) / 2 < PART[1]:
            frame.q_load(q=-PART[2], element_id=number, direction="y")
    frame.solve()
    return frame


@pytest.mark.parametrize(("supports", "clamps"), FRAMES)
def test_against_an_independent_frame_program(
    supports: tuple[float, ...], clamps: tuple[float, ...]
) -> None:
    """Deflections at all nodes and reactions agree within 0.1 % of the greatest.

    Source: anaStruct 1.7, a general two-dimensional frame program.
    """
    frame = framed(supports, clamps)
    beam = Beam(
        stretches=tuple(Stiffness(start=s, end=e, bending=ei) for s, e, ei in STEPS),
        supports=tuple(Support(at, is_clamped=at in clamps) for at in supports),
        points=tuple(PointLoad(at, force) for at, force in POINTS),
        lines=(LineLoad(*PART),),
    )
    found = solve(beam)
    nodes = [
        (n["id"], frame.node_map[n["id"]].vertex.x, n["uy"])
        for n in frame.get_node_displacements(None)
    ]
    theirs = np.array([-uy for _, _, uy in nodes])
    ours = np.array([found.deflection(float(x)) for _, x, _ in nodes])
    assert np.max(np.abs(theirs)) > 0.01
    assert np.max(np.abs(ours - theirs)) < 0.001 * np.max(np.abs(theirs))
    pushes = {frame.node_map[i].vertex.x: -node.Fy for i, node in frame.reaction_forces.items()}
    for at, reaction in zip(supports, found.reactions, strict=True):
        assert reaction == pytest.approx(pushes[at], rel=1e-3, abs=0.2), pushes


def test_a_stretch_that_gives_is_found_where_it_is() -> None:
    """Weakened on the left, the beam sags left of its middle; mirrored, right of it."""
    soft = Stiffness(start=0.0, end=400.0, bending=1e8)
    stiff = Stiffness(start=400.0, end=1000.0, bending=9e8)
    supports = (Support(0.0), Support(1000.0))
    line = (LineLoad(0.0, 1000.0, 0.4),)
    left = solve(Beam(stretches=(soft, stiff), supports=supports, lines=line))
    turned = (
        Stiffness(start=0.0, end=600.0, bending=9e8),
        Stiffness(start=600.0, end=1000.0, bending=1e8),
    )
    right = solve(Beam(stretches=turned, supports=supports, lines=line))
    assert left.greatest_deflection()[0] < 500
    assert left.greatest_deflection()[0] == pytest.approx(1000 - right.greatest_deflection()[0])
    assert left.greatest_deflection()[1] == pytest.approx(right.greatest_deflection()[1])


def test_bad_beams_are_refused() -> None:
    """Each with the error that names what is wrong."""
    with pytest.raises(DesignError, match="do not hold it"):
        solve(uniform((Support(300.0),)))
    with pytest.raises(DesignError, match="do not hold it"):
        solve(uniform(()))
    with pytest.raises(SizeError, match="bending stiffness"):
        Stiffness(start=0.0, end=10.0, bending=math.nan)
    with pytest.raises(SizeError, match="join"):
        Beam(stretches=(Stiffness(start=5.0, end=10.0, bending=1.0),), supports=SIMPLE)
    with pytest.raises(SizeError, match="place of a load"):
        Beam(stretches=uniform(SIMPLE).stretches, supports=SIMPLE, points=(PointLoad(SPAN + 1, 5),))
    with pytest.raises(SizeError, match="span"):
        deflection(Case.SIMPLE_MIDDLE, 10.0, 0.0, 1e8)
