"""Sections: outlines, lengths and areas worked out by hand."""

from __future__ import annotations

import math

import cadquery as cq
import pytest

from cabinet.errors import KernelError
from drawings.coincidence import without
from drawings.curves import (
    ArcCurve,
    Curve,
    PolyCurve,
    Segment,
    ViewPoint,
    bounds,
    ends,
    length,
)
from drawings.hatch import hatch
from drawings.projection import merged
from drawings.section import CutFace, Loop, SectionCut, cut, section
from drawings.view_frame import FROM_LEFT, FRONT, PLAN, ViewFrame


def box(x: float, y: float, z: float, dx: float, dy: float, dz: float) -> cq.Solid:
    return cq.Solid.makeBox(dx, dy, dz, cq.Vector(x, y, z))


def grooved() -> cq.Shape:
    """A board 613 x 287 x 17.6 with a groove 8.3 x 6.2 in its top, 200 from the front."""
    return box(0, 0, 0, 613, 287, 17.6).cut(box(0, 200, 11.4, 613, 8.3, 9))


def only(found: SectionCut | None) -> CutFace:
    assert found is not None
    (face,) = found.faces
    return face


def area(loop: Loop) -> float:
    """Area within a loop of segments, positive counter-clockwise (shoelace formula)."""
    assert all(isinstance(curve, Segment) for curve in loop)
    return sum(a.u * b.v - b.u * a.v for a, b in (ends(curve) for curve in loop)) / 2


def assert_closed(loop: Loop) -> None:
    """Each curve shares an end with the next; segments run along the loop."""
    for one, other in zip(loop, (*loop[1:], *loop[:1]), strict=True):
        mine = ends(one) if isinstance(one, ArcCurve) else ends(one)[1:]
        its = ends(other) if isinstance(other, ArcCurve) else ends(other)[:1]
        assert min(math.hypot(a.u - b.u, a.v - b.v) for a in mine for b in its) < 2e-4


def test_a_grooved_board_cut_across() -> None:
    found = cut("base", grooved(), (306.5, 0.0, 0.0), FROM_LEFT)
    face = only(found)
    # Seen from the left u is -Y: the groove lies at u = -208.3 .. -200.
    corners = [(c.start.u, c.start.v) for c in face.outer if isinstance(c, Segment)]
    assert corners == [
        (-287.0, 0.0),
        (0.0, 0.0),
        (0.0, 17.6),
        (-200.0, 17.6),
        (-200.0, 11.4),
        (-208.3, 11.4),
        (-208.3, 17.6),
        (-287.0, 17.6),
    ]
    assert_closed(face.outer)
    assert area(face.outer) == pytest.approx(287 * 17.6 - 8.3 * 6.2, abs=1e-6)
    assert face.inner == ()
    assert found is not None
    assert found.behind.visible == ()


def test_a_cut_through_a_bore_and_an_opening() -> None:
    solid = (
        box(0, 0, 0, 613, 287, 17.6)
        .cut(cq.Solid.makeCylinder(17.5, 40, cq.Vector(100, 90, -5)))
        .cut(box(300, 60, -5, 81, 47, 40))
    )
    face = only(cut("top", solid, (0.0, 0.0, 8.8), PLAN))
    assert face.outer[0] == Segment(ViewPoint(0.0, 0.0), ViewPoint(613.0, 0.0))
    assert area(face.outer) == pytest.approx(613 * 287)
    circle, opening = sorted(face.inner, key=len)
    assert circle == (ArcCurve(ViewPoint(100.0, 90.0), 17.5, 0.0, 360.0),)
    assert area(opening) == pytest.approx(-81 * 47)  # Clockwise.
    strokes = hatch(face.loops, 45.0, 0.5)
    expected = 613 * 287 - 81 * 47 - math.pi * 17.5**2
    assert length(strokes) * 0.5 == pytest.approx(expected, rel=1e-3)


@pytest.mark.parametrize("is_notch", [False, True])
def test_loops_with_arcs_are_closed_and_turn_the_right_way(*, is_notch: bool) -> None:
    tool = cq.Solid.makeCylinder(25.0, 40, cq.Vector(0, 0, -5))
    bar = box(-80, -10, 0, 160, 20, 17.6)
    solid = bar.cut(tool) if is_notch else bar.fuse(cq.Solid.makeCylinder(25.0, 17.6))
    found = cut("stay", solid, (0.0, 0.0, 8.8), PLAN)
    assert found is not None
    assert len(found.faces) == (2 if is_notch else 1)
    # Half chord at v = 10 is sqrt(25^2 - 10^2); the two circular caps follow from it.
    half, angle = math.sqrt(25.0**2 - 10.0**2), math.asin(10 / 25)
    within = 2 * (10 * half + 25.0**2 * angle)
    expected = 160 * 20 - within + (0 if is_notch else math.pi * 25.0**2)
    spacing = 0.05
    assert length(hatch(found.loops, 30.0, spacing)) * spacing == pytest.approx(expected, rel=1e-3)
    for face in found.faces:
        assert_closed(face.outer)
        assert any(isinstance(curve, ArcCurve) for curve in face.outer)


def test_an_oblique_cut_of_a_post_is_an_ellipse() -> None:
    slope = ViewFrame((1.0, 0.0, 0.0), (0.0, 0.6, 0.8))  # The viewer looks along (0, 0.8, -0.6).
    post = cq.Solid.makeCylinder(12.5, 200, cq.Vector(0, 0, -100))
    (curve,) = only(cut("post", post, (0.0, 0.0, 0.0), slope)).outer
    assert isinstance(curve, PolyCurve)
    for point in curve.points:  # Half axes 12.5 and 12.5 / 0.6.
        assert math.hypot(point.u, point.v * 0.6) == pytest.approx(12.5, abs=1e-3)


def test_behind_holds_what_is_seen_beyond_the_cut_and_not_its_outline() -> None:
    # A step: the cut at X = 100 meets the low part, and the high part stands behind.
    step = box(0, 0, 0, 300, 80, 17.6).fuse(box(200, 0, 17.6, 100, 80, 22.4)).clean()
    found = cut("step", step, (100.0, 0.0, 0.0), FROM_LEFT)
    assert found is not None
    assert set(found.behind.visible) == {
        Segment(ViewPoint(-80.0, 17.6), ViewPoint(-80.0, 40.0)),
        Segment(ViewPoint(-80.0, 40.0), ViewPoint(0.0, 40.0)),
        Segment(ViewPoint(0.0, 17.6), ViewPoint(0.0, 40.0)),
    }
    assert found.behind.hidden == ()


def test_hidden_edges_only_if_asked_for() -> None:
    board = box(0, 0, 0, 613, 287, 17.6).cut(box(400, 100, 5, 300, 30, 4))
    assert cut("base", board, (50.0, 0.0, 0.0), FROM_LEFT) is not None
    plain = cut("base", board, (50.0, 0.0, 0.0), FROM_LEFT)
    full = cut("base", board, (50.0, 0.0, 0.0), FROM_LEFT, with_hidden=True)
    assert plain is not None
    assert full is not None
    assert plain.behind.hidden == ()
    assert length(full.behind.hidden) == pytest.approx(2 * (30 + 4))


@pytest.mark.parametrize(
    ("place", "is_left"), [(-1.0, False), (0.0, False), (287.0, True), (290.0, True)]
)
def test_a_plane_that_does_not_cut(place: float, *, is_left: bool) -> None:
    # From the front the viewer stands at -Y; a board before the plane is taken away.
    board = box(0, 0, 0, 613, 287, 17.6)
    found = cut("base", board, (0.0, 287.0 - place, 0.0), FRONT)
    assert (found is not None) is is_left
    if found is not None:
        assert found.faces == ()
        assert length(found.behind.visible) == pytest.approx(2 * (613 + 17.6))


def test_a_face_that_lies_in_the_plane_is_not_cut() -> None:
    # The plane runs along the groove's floor: the board is cut beside the groove only.
    found = cut("base", grooved(), (0.0, 0.0, 11.4), PLAN)
    assert found is not None
    assert [bounds(face.outer).bottom for face in found.faces] == [0.0, 208.3]
    assert sum(area(face.outer) for face in found.faces) == pytest.approx(613 * (287 - 8.3))


def test_parts_that_touch_are_cut_each_for_itself() -> None:
    t = 17.6
    solids: dict[str, cq.Shape] = {
        "side": box(0, 0, 0, t, 287, 400).cut(box(t - 6, 0, 0, 6, 287, t)),
        "base": box(t - 6, 0, 0, 500, 287, t),
        "back": box(t, 280, t, 480, 7, 380),
        "door": box(t, -20, 0, 480, 18, 400),
    }
    found = section(solids, (0.0, 100.0, 0.0), FRONT)
    assert list(found) == ["side", "base", "back"]
    assert area(only(found["side"]).outer) == pytest.approx(t * 400 - 6 * t)
    assert area(only(found["base"]).outer) == pytest.approx(500 * t)
    assert found["back"].faces == ()
    # No edge behind runs through a cut face or along its outline.
    outlines: list[Curve] = [c for part in found.values() for loop in part.loops for c in loop]
    behind = merged(part.behind for part in found.values()).visible
    assert behind
    assert without(behind, outlines) == behind
    assert all(min(p.v for p in ends(c)) >= t and min(p.u for p in ends(c)) >= t for c in behind)


def test_an_empty_solid_is_named() -> None:
    empty = box(0, 0, 0, 1, 1, 1)
    empty.wrapped = type(empty.wrapped)()
    with pytest.raises(KernelError) as caught:
        section({"base": grooved(), "lid": empty}, (0.0, 100.0, 0.0), FRONT)
    assert caught.value.part == "lid"
