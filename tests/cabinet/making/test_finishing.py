"""Areas by hand, amounts by published coverage, and no more off a veneer than there is."""

from __future__ import annotations

import math

import pytest

from cabinet.board import At, Surface
from cabinet.checks.assembly import assembly
from cabinet.errors import SizeError
from cabinet.features import CutOut, FlushTrim, HoleRow
from cabinet.making.consumables import consumables
from cabinet.making.finishing import (
    HARDWAX_OIL,
    Finish,
    finishing_plan,
    surface_area,
)
from cabinet.making.gluing import gluing_plan
from cabinet.making.rack import is_wood
from cabinet.part import Board
from cabinet.stock import birch_plywood
from cabinet.workshop import Workshop
from tests.examples import example_unit

EXAMPLES = ("greenhouse_wall_unit", "pantry_cupboard", "pottery_drying_rack")
PLY = birch_plywood(18, 17.6)


def test_the_area_of_a_face_is_what_is_left_after_trimming_and_openings() -> None:
    board = Board(
        stock=PLY,
        length=613.0,
        width=287.0,
        features=(
            FlushTrim(name="trim", edge=Surface.END, proud=1.0),
            CutOut(
                name="pill",
                centre=(At(Surface.START, 210.0), At(Surface.LOW, 131.0)),
                length=120,
                width=30,
                corner_radius=15,
            ),
            HoleRow(
                name="row",
                surface=Surface.A,
                first=At(Surface.START, 41.0),
                line=At(Surface.LOW, 37.0),
                count=3,
                pitch=32.0,
                diameter=5.0,
                depth=None,
            ),
        ),
    )
    holes = 90 * 30 + math.pi * 15**2 + 3 * math.pi * 2.5**2
    assert surface_area(board, Surface.A) == pytest.approx(612.0 * 287.0 - holes)
    assert surface_area(board, Surface.HIGH) == pytest.approx(612.0 * 17.6)
    assert surface_area(board, Surface.START) == pytest.approx(287.0 * 17.6)


def test_litres_follow_published_coverage() -> None:
    # 20 to 30 m2 a litre and coat, two coats (floor trade sheets, read): 6 m2 take 0.4 to 0.6 l.
    assert HARDWAX_OIL.litres(6e6) == pytest.approx((0.4, 0.6))
    # 24 m2/l is called typical there and must lie between.
    low, high = HARDWAX_OIL.litres(24e6)
    assert low < 24 * 2 / 24 < high


@pytest.mark.parametrize("name", EXAMPLES)
def test_all_that_is_seen_is_finished_and_veneers_are_spared(name: str) -> None:
    unit = example_unit(name)
    plan = finishing_plan(unit)
    shown = {p.name for p in unit.parts if p.board.shows or p.board.behind_doors}
    told = {one for line in plan.shown for one in line.parts}
    assert told <= shown
    assert plan.wood_area == pytest.approx(
        sum(
            surface_area(part.board, surface)
            for part in unit.parts
            if is_wood(part.board.stock)
            for surface in (*part.board.shows, *part.board.behind_doors)
        )
    )
    for one in plan.sanding:
        if "plywood" in one.material:
            assert len(one.grits) == 1
            # Usual face veneers are 0.4 to 0.6 mm (panel inspector, read), birch 1.1 (memory).
            assert one.most_off <= (1.1 if "birch" in one.material else 0.4) / 2
        else:
            assert list(one.grits) == sorted(one.grits)


def test_what_is_used_up_comes_with_how_much() -> None:
    unit = example_unit("greenhouse_wall_unit")
    gluing = gluing_plan(unit, assembly(unit), Workshop())
    finishing = finishing_plan(unit)
    used = {one.article: one for one in consumables(gluing, finishing)}
    assert set(used) == {
        "PVA wood glue",
        "contact adhesive",
        "sanding disc, 150 across",
        "hardwax oil",
        "lint-free rag",
    }
    grams = used["PVA wood glue"].amount
    area = sum(
        stage.area * stage.times for stage in gluing.stages if stage.glue.name == "PVA wood glue"
    )
    assert grams == pytest.approx((area / 1e6 * 165.0, area / 1e6 * 225.0))
    assert used["hardwax oil"].amount == finishing.litres


def test_a_finish_without_coats_is_refused() -> None:
    with pytest.raises(SizeError, match="coats"):
        Finish(
            name="oil",
            coverage=(20.0, 30.0),
            coats=0,
            between_hours=(8.0, 24.0),
            use_hours=24.0,
            cure_days=7.0,
            least_celsius=16.0,
            is_drying_oil=True,
            source="none",
        )
