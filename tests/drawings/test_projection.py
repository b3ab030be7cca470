"""Projection: lengths worked out by hand, and hidden lines held to rays.

The rays know nothing of the kernel's hidden-line removal: the solids become triangles, and a
point of an edge counts as seen if, hard by it, no triangle lies between it and the viewer.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping
from itertools import pairwise

import cadquery as cq
import numpy as np
import pytest
from numpy.typing import NDArray

from cabinet.board import At, Surface
from cabinet.errors import KernelError, SizeError
from cabinet.features import CutOut
from cabinet.frame import Side, UnitPoint
from cabinet.part import board_part
from cabinet.solids import part_solid
from cabinet.stock import birch_plywood
from drawings.curves import ArcCurve, Curve, PolyCurve, Segment, ViewPoint, bounds, length
from drawings.projection import Projection, merged, project
from drawings.view_frame import (
    BACK,
    FROM_BELOW,
    FROM_LEFT,
    FROM_RIGHT,
    FRONT,
    ISOMETRIC,
    PLAN,
    ViewFrame,
)

Floats = NDArray[np.float64]

LENGTH, WIDTH, THICKNESS = 613.0, 287.0, 17.6


def box(x: float, y: float, z: float, dx: float, dy: float, dz: float) -> cq.Solid:
    return cq.Solid.makeBox(dx, dy, dz, cq.Vector(x, y, z))


def board() -> cq.Solid:
    return box(0, 0, 0, LENGTH, WIDTH, THICKNESS)


def one(solid: cq.Shape, frame: ViewFrame) -> Projection:
    return project({"board": solid}, frame)["board"]


def segment(a: float, b: float, c: float, d: float) -> Segment:
    return Segment(ViewPoint(a, b), ViewPoint(c, d))


# Frames


@pytest.mark.parametrize(
    ("frame", "viewer"),
    [
        (FRONT, (0, -1, 0)),
        (BACK, (0, 1, 0)),
        (PLAN, (0, 0, 1)),
        (FROM_BELOW, (0, 0, -1)),
        (FROM_LEFT, (-1, 0, 0)),
        (FROM_RIGHT, (1, 0, 0)),
    ],
)
def test_the_viewer_stands_where_the_view_says(
    frame: ViewFrame, viewer: tuple[float, float, float]
) -> None:
    assert frame.toward == pytest.approx(viewer)


def test_from_the_left_the_front_is_at_the_right_hand() -> None:
    assert FROM_LEFT.model_to_view((5.0, 10.0, 20.0)) == ViewPoint(-10.0, 20.0)
    assert FROM_RIGHT.model_to_view((5.0, 10.0, 20.0)) == ViewPoint(10.0, 20.0)
    assert FROM_LEFT.nearness((5.0, 10.0, 20.0)) == -5.0


def test_isometric_axes() -> None:
    # ISO 5456-3:1996: axes 120 degrees apart, x and y at 30 degrees to the level, one scale;
    # a true projection has the factor sqrt(2/3).
    # Seen from front, left and above, X runs up to the right and Y up to the left.
    axes: list[tuple[tuple[float, float, float], float]] = [
        ((1.0, 0.0, 0.0), 30.0),
        ((0.0, 1.0, 0.0), 150.0),
        ((0.0, 0.0, 1.0), 90.0),
    ]
    for axis, angle in axes:
        seen = ISOMETRIC.model_to_view(axis)
        assert math.hypot(seen.u, seen.v) == pytest.approx(math.sqrt(2 / 3), abs=1e-12)
        assert math.degrees(math.atan2(seen.v, seen.u)) == pytest.approx(angle, abs=1e-9)
    assert all(part * sign > 0 for part, sign in zip(ISOMETRIC.toward, (-1, -1, 1), strict=True))


@pytest.mark.parametrize(
    ("right", "up"),
    [
        ((1.0, 0.0, 0.0), (0.6, 0.8, 0.0)),
        ((1.0, 0.0, 0.0), (0.0, 0.99, 0.0)),
        ((math.nan, 0.0, 0.0), (0.0, 1.0, 0.0)),
    ],
)
def test_frames_that_are_not_square_are_refused(
    right: tuple[float, float, float], up: tuple[float, float, float]
) -> None:
    with pytest.raises(SizeError):
        ViewFrame(right, up)


# One part


@pytest.mark.parametrize(
    ("frame", "width", "height"),
    [(FRONT, 613.0, 17.6), (PLAN, 613.0, 287.0), (FROM_LEFT, 287.0, 17.6), (BACK, 613.0, 17.6)],
)
def test_a_board_seen_square_on_is_its_outline(
    frame: ViewFrame, width: float, height: float
) -> None:
    seen = one(board(), frame)
    assert len(seen.visible) == 4
    assert length(seen.visible) == pytest.approx(2 * (width + height), abs=1e-9)
    assert seen.hidden == ()  # The far edges lie beneath the near ones.


def test_a_board_in_isometric_shows_nine_edges_and_hides_three() -> None:
    seen = one(board(), ISOMETRIC)
    assert (len(seen.visible), len(seen.hidden)) == (9, 3)
    around = LENGTH + WIDTH + THICKNESS
    assert length(seen.visible) == pytest.approx(3 * around * math.sqrt(2 / 3), abs=1e-3)
    assert length(seen.hidden) == pytest.approx(around * math.sqrt(2 / 3), abs=1e-3)


def test_a_stopped_groove_a_bore_and_a_bevel() -> None:
    solid = (
        board()
        .cut(box(41, 200, THICKNESS - 6.2, 500, 8.3, 9))
        .cut(cq.Solid.makeCylinder(2.5, 11.3, cq.Vector(37, 53.7, 0)))
        .cut(
            cq.Solid.extrudeLinear(
                cq.Wire.makePolygon(
                    [
                        cq.Vector(LENGTH, 0, 0),
                        cq.Vector(LENGTH - 17.6, 0, 0),
                        cq.Vector(LENGTH, 0, 17.6),
                    ],
                    close=True,
                ),
                [],
                cq.Vector(0, WIDTH, 0),
            )
        )
    )
    plan = one(solid, PLAN)
    assert segment(41.0, 200.0, 541.0, 200.0) in plan.visible
    assert segment(41.0, 200.0, 41.0, 208.3) in plan.visible
    assert plan.hidden == (
        segment(595.4, 0.0, 595.4, 287.0),
        ArcCurve(ViewPoint(37.0, 53.7), 2.5, 0.0, 360.0),
    )
    front = one(solid, FRONT)
    assert segment(595.4, 0.0, 613.0, 17.6) in front.visible
    # The groove's floor and ends, and the bore's sides and end, none of which is seen.
    assert set(front.hidden) == {
        segment(41.0, 11.4, 541.0, 11.4),
        segment(41.0, 11.4, 41.0, 17.6),
        segment(541.0, 11.4, 541.0, 17.6),
        segment(34.5, 0.0, 34.5, 11.3),
        segment(39.5, 0.0, 39.5, 11.3),
        segment(34.5, 11.3, 39.5, 11.3),
    }


def test_smooth_edges_are_not_drawn() -> None:
    solid = board()
    upper = [e for e in solid.Edges() if e.Center().z > 17 and round(e.Length(), 6) == WIDTH]
    rounded = solid.fillet(5.3, upper)
    front = one(rounded, FRONT)
    assert {round(c.radius, 4) for c in front.visible if isinstance(c, ArcCurve)} == {5.3}
    plan = one(rounded, PLAN)
    assert [type(curve) for curve in plan.visible] == [Segment] * 4
    assert plan.hidden == ()


def test_smooth_edges_of_a_pill_are_not_drawn() -> None:
    # Its flat walls run into its round ends: nothing is drawn there, seen or hidden.
    part = board_part(
        name="board",
        role="board",
        stock=birch_plywood(18, 17.7),
        box_low=UnitPoint(0, 0, 0),
        length=(Side.RIGHT, 400),
        width=(Side.BACK, 200),
        fence=Side.FRONT,
        stop=Side.LEFT,
        features=(
            CutOut(
                name="opening",
                centre=(At(Surface.START, 203), At(Surface.LOW, 91)),
                length=120,
                width=28,
                corner_radius=14,
            ),
        ),
    )
    seen = one(part_solid(part), FRONT)
    assert set(seen.hidden) == {
        segment(143.0, 0.0, 143.0, 17.7),
        segment(263.0, 0.0, 263.0, 17.7),
    }


def test_a_circle_seen_askew_is_an_ellipse_within_the_chord_error() -> None:
    post = cq.Solid.makeCylinder(33.7, 60.0)
    seen = one(post, ISOMETRIC)
    assert any(isinstance(curve, PolyCurve) for curve in seen.visible)
    # Axes of the ellipse: r along u, and r times toward's Z along v.
    flat = ISOMETRIC.toward[2]
    top = ISOMETRIC.model_to_view((0.0, 0.0, 60.0))
    checked = 0
    for curve in (c for c in seen.visible if isinstance(c, PolyCurve)):
        if max(p.v for p in curve.points) < top.v + 1.0:
            continue
        for a, b in pairwise(curve.points):
            for share in (0.0, 0.25, 0.5, 0.75):
                u, v = a.u + share * (b.u - a.u) - top.u, a.v + share * (b.v - a.v) - top.v
                assert math.hypot(u, v / flat) == pytest.approx(33.7, abs=0.05 / flat)
                checked += 1
    assert checked > 40
    box_around = bounds(seen.visible)
    assert box_around.width == pytest.approx(2 * 33.7, abs=0.11)


# Many parts


def touching_boxes() -> dict[str, cq.Shape]:
    """25 boxes in a wall, face to face, flush in front and unequal behind."""
    xs = [0.0, 113.3, 241.7, 300.1, 455.5, 613.0]
    zs = [0.0, 88.8, 190.2, 301.3, 377.7, 499.9]
    return {
        f"box {i} {k}": box(
            xs[i], 0, zs[k], xs[i + 1] - xs[i], 287 - 10 * ((3 * i + 7 * k) % 4), zs[k + 1] - zs[k]
        )
        for i in range(5)
        for k in range(5)
    }


def carcass() -> dict[str, cq.Shape]:
    """Boards that sit in each other's grooves and rebates without any play."""
    width, depth, height, t = 613.0, 287.0, 499.0, 17.6
    side = box(0, 0, 0, t, depth, height).cut(
        box(t - 8, depth - 14, 0, 8, 6.3, height),
        box(t - 6, 0, 0, 6, depth, t),
        box(t - 6, 0, height - t, 6, depth, t),
    )
    base = box(t - 6, 0, 0, width - 2 * t + 12, depth, t).cut(
        box(0, depth - 14, t - 8, width, 6.3, 8), box(0, 10, t - 7, width, 8.2, 7)
    )
    solids: dict[str, cq.Shape] = {
        "left side": side,
        "right side": side.mirror("YZ").translate(cq.Vector(width, 0, 0)),
        "base": base,
        "top": base.mirror("XY").translate(cq.Vector(0, 0, height)),
        "back": box(t - 8, depth - 14, t - 8, width - 2 * t + 16, 6.3, height - 2 * t + 16),
        "divider": box(300, 40, t, t, depth - 54, height - 2 * t),
        "shelf": box(t, 45, 164.1, 300 - t, depth - 59, t),
        "door": box(t, 10, t - 5, 310, 8.0, height - 2 * t + 12),
    }
    return solids


def rotation(frame: ViewFrame) -> Floats:
    return np.array([frame.right, frame.up, frame.toward])


def triangles(solids: Mapping[str, cq.Shape], frame: ViewFrame) -> Floats:
    """All the solids' triangles in the view's frame, shape (n, 3, 3)."""
    meshes = []
    for solid in solids.values():
        corners, faces = solid.tessellate(0.1)
        meshes.append(np.array([c.toTuple() for c in corners])[np.array(faces)])
    return np.asarray(np.concatenate(meshes) @ rotation(frame).T)


def edge_stations(solids: Mapping[str, cq.Shape], frame: ViewFrame, pitch: float) -> Floats:
    """Points along all the edges, ``pitch`` mm apart in the view, shape (n, 3)."""
    result = []
    for solid in solids.values():
        for edge in solid.Edges():
            a, b = (
                rotation(frame) @ np.array(p.toTuple())
                for p in (edge.startPoint(), edge.endPoint())
            )
            count = int(np.hypot(*(b - a)[:2]) / pitch)
            shares = (np.arange(count) + 0.5)[:, None] / max(count, 1)
            result.append(a + shares * (b - a))
    return np.concatenate(result)


def are_covered(points: Floats, mesh: Floats) -> NDArray[np.bool_]:
    """Whether a triangle lies between each point and the viewer."""
    a, b, c = mesh[:, 0], mesh[:, 1], mesh[:, 2]
    area = (b[:, 1] - c[:, 1]) * (a[:, 0] - c[:, 0]) + (c[:, 0] - b[:, 0]) * (a[:, 1] - c[:, 1])
    faces_viewer = np.abs(area) > 1e-9
    a, b, c, area = a[faces_viewer], b[faces_viewer], c[faces_viewer], area[faces_viewer]
    result = []
    for start in range(0, len(points), 500):
        p = points[start : start + 500, None]
        one = (
            (b[:, 1] - c[:, 1]) * (p[..., 0] - c[:, 0])
            + (c[:, 0] - b[:, 0]) * (p[..., 1] - c[:, 1])
        ) / area
        two = (
            (c[:, 1] - a[:, 1]) * (p[..., 0] - c[:, 0])
            + (a[:, 0] - c[:, 0]) * (p[..., 1] - c[:, 1])
        ) / area
        three = 1 - one - two
        near = one * a[:, 2] + two * b[:, 2] + three * c[:, 2]
        inside = (one >= 0) & (two >= 0) & (three >= 0) & (near > p[..., 2])
        result.append(inside.any(axis=1))
    return np.concatenate(result)


def distances(points: Floats, curves: Iterable[Curve]) -> Floats:
    """From each point (n, 2) to the nearest segment, mm."""
    lines = [c for c in curves if isinstance(c, Segment)]
    start = np.array([(s.start.u, s.start.v) for s in lines])
    along = np.array([(s.end.u, s.end.v) for s in lines]) - start
    result = []
    for first in range(0, len(points), 1000):
        away = points[first : first + 1000, None] - start
        share = np.clip((away * along).sum(axis=2) / (along**2).sum(axis=1), 0, 1)
        result.append(np.hypot(*np.moveaxis(away - share[..., None] * along, 2, 0)).min(axis=1))
    return np.concatenate(result)


def disagreement(
    solids: Mapping[str, cq.Shape], frame: ViewFrame, seen: Projection
) -> tuple[float, float]:
    """Shares of the visible length that the projection lacks, and that it has too much."""
    pitch, aside, towards = 3.3, 0.004, 0.04
    stations, mesh = edge_stations(solids, frame, pitch), triangles(solids, frame)
    is_seen = np.zeros(len(stations), dtype=bool)
    for turn in np.arange(6) * math.pi / 3 + 0.123:
        beside = (aside * math.cos(turn), aside * math.sin(turn), towards)
        is_seen |= ~are_covered(stations + beside, mesh)
    lacking = (distances(stations[is_seen][:, :2], seen.visible) > 2e-3).mean()
    drawn = np.concatenate(
        [
            (np.arange(n) + 0.5)[:, None] / n * ((s.end.u - s.start.u), (s.end.v - s.start.v))
            + (s.start.u, s.start.v)
            for s in seen.visible
            if isinstance(s, Segment)
            for n in [1 + int(length([s]) / pitch)]
        ]
    )
    truth = stations[is_seen][:, :2]
    gaps = np.concatenate(
        [
            np.hypot(*np.moveaxis(drawn[k : k + 200, None] - truth, 2, 0)).min(axis=1)
            for k in range(0, len(drawn), 200)
        ]
    )
    return float(lacking), float((gaps > 1.1 * pitch).mean())


@pytest.mark.parametrize(
    "frame", [FRONT, PLAN, FROM_LEFT, ISOMETRIC], ids=["front", "plan", "from left", "isometric"]
)
@pytest.mark.parametrize("make", [touching_boxes, carcass])
def test_hidden_lines_of_touching_solids_agree_with_rays(
    make: Callable[[], dict[str, cq.Shape]], frame: ViewFrame
) -> None:
    solids = make()
    seen = merged(project(solids, frame).values())
    lacking, excess = disagreement(solids, frame, seen)
    assert lacking < 1e-3
    assert excess < 1e-3


def test_the_rays_notice_a_line_too_few_and_a_line_too_many() -> None:
    solids = carcass()
    seen = merged(project(solids, ISOMETRIC).values())
    longest = max(seen.visible, key=lambda curve: length([curve]))
    fewer = Projection(tuple(c for c in seen.visible if c != longest), ())
    more = Projection((*seen.visible, max(seen.hidden, key=lambda c: length([c]))), ())
    assert disagreement(solids, ISOMETRIC, fewer)[0] > 0.02
    assert disagreement(solids, ISOMETRIC, more)[1] > 0.02


def test_a_wall_of_boxes_from_the_front_is_its_joints() -> None:
    # Six uprights of 499.9 and six levels of 613, each drawn once.
    seen = merged(project(touching_boxes(), FRONT).values())
    assert length(seen.visible) == pytest.approx(6 * 499.9 + 6 * 613.0, abs=1e-9)
    assert len(seen.visible) == 12
    assert seen.hidden == ()


def test_the_order_of_the_parts_changes_nothing() -> None:
    solids = carcass()
    turned = dict(reversed(solids.items()))
    ahead, back = project(solids, ISOMETRIC), project(turned, ISOMETRIC)
    assert list(ahead) == list(solids)
    assert ahead == {name: back[name] for name in ahead}


def test_a_visible_edge_goes_before_another_parts_hidden_one() -> None:
    solids = {"front": box(0, 0, 0, 100, 18, 50), "behind": box(10, 20, 0, 60, 18, 50)}
    seen = project(solids, FRONT)
    assert segment(10.0, 0.0, 70.0, 0.0) in seen["behind"].hidden
    whole = merged(seen.values())
    assert set(whole.hidden) == {segment(10, 0, 10, 50), segment(70, 0, 70, 50)}


def test_a_pin_hides_the_half_of_its_bores_rim_that_lies_behind_it() -> None:
    bored = board().cut(cq.Solid.makeCylinder(2.5, 11.3, cq.Vector(37, 53.7, 6.3)))
    pin = cq.Solid.makeCylinder(2.5, 30, cq.Vector(37, 53.7, 6.3))
    alone = one(bored, ISOMETRIC)
    fitted = project({"board": bored, "pin": pin}, ISOMETRIC)["board"]
    rim, rest = (
        length(c for c in seen.visible if isinstance(c, PolyCurve)) for seen in (alone, fitted)
    )
    assert rest == pytest.approx(rim / 2, rel=1e-3)


def test_nothing_to_project() -> None:
    assert project({}, FRONT) == {}


def test_an_empty_solid_is_named() -> None:
    empty = cq.Solid(cq.Solid.makeBox(1, 1, 1).wrapped)
    empty.wrapped = type(empty.wrapped)()
    with pytest.raises(KernelError) as caught:
        project({"base": board(), "lid": empty}, FRONT)
    assert caught.value.part == "lid"
