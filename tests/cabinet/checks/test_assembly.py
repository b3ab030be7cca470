"""The assembly's order: all that there is, each in its turn, by moves that the kernel grants."""

from __future__ import annotations

import pytest
from hypothesis import given, settings

from cabinet.assembly import Assembly, Stage, Step
from cabinet.board import At, Surface
from cabinet.checks.assembly import assembly
from cabinet.checks.bodies import Body, bodies, share_volume
from cabinet.checks.locked import locks
from cabinet.checks.standing import standing
from cabinet.checks.ties import holds
from cabinet.design import Unit
from cabinet.features import CutOut
from cabinet.frame import Side, UnitPoint
from cabinet.joint import Track
from cabinet.part import board_part
from cabinet.stock import solid_wood
from tests.cabinet.checks.planted import block, blocks
from tests.examples import EXAMPLES, example_unit
from tests.planted.good_units import ALL, good_unit
from tests.strategies import Recipe, recipes

STAGES = tuple(Stage)


def first_step(order: Assembly, name: str) -> Step:
    """The step that first brings a body."""
    return next(step for step in order.steps if name in step.bodies)


def last_step(order: Assembly, name: str) -> Step:
    """The last step at the workshop in which it moves."""
    return [s for s in order.steps if name in s.bodies and s.stage is not Stage.ON_SITE][-1]


def check_order(unit: Unit, order: Assembly) -> None:
    """What holds of every order: nothing forgotten, nothing in the air, stages in their turn."""
    assert order.locked == ()
    assert [step.number for step in order.steps] == list(range(1, len(order.steps) + 1))
    assert {b for step in order.steps for b in step.bodies} == set(bodies(unit))
    stages = [STAGES.index(step.stage) for step in order.steps]
    assert stages == sorted(stages)
    closed = [index for step in order.steps for index in step.joints]
    assert sorted(closed) == [i for i, joint in enumerate(unit.joints) if holds(joint)]
    for step in order.steps:
        assert (step.side is None) == (not step.onto)
        assert not set(step.onto) & set(step.bodies)
        is_glued = any(unit.joints[i].is_glued for i in step.joints)
        assert step.group > 0 or not is_glued
    groups = list(dict.fromkeys(step.group for step in order.steps if step.group))
    assert groups == list(range(1, len(groups) + 1))


@settings(max_examples=60)
@given(recipe=recipes())
def test_every_good_unit_has_an_order(recipe: Recipe) -> None:
    """Hung and standing, with all that they may have."""
    unit = recipe.design().resolve()
    check_order(unit, assembly(unit))


@pytest.mark.parametrize("name", sorted(path.stem for path in EXAMPLES.glob("*.py")))
def test_every_example_has_an_order(name: str) -> None:
    """The examples too."""
    unit = example_unit(name)
    check_order(unit, assembly(unit))


def _moves_freely(unit: Unit, step: Step, stands: frozenset[str]) -> None:
    """Drawn back from its place by steps of the kernel, nothing of it meets what stands."""
    assert step.side is not None
    items: dict[str, Body] = bodies(unit)
    guides = {(joint.door, joint.board) for joint in unit.joints if isinstance(joint, Track)}
    back = step.side.opposite
    for name in step.bodies:
        for other in sorted(stands - set(step.bodies)):
            if (name, other) in guides:
                continue
            for share in (0.02, 0.17, 0.5, 0.83, 1.0):
                far = share * max(step.travel, 1.0)
                assert not share_volume(items[name], items[other], back, far), (
                    f"step {step.number}: {name} meets {other} after {far:.1f} mm"
                )


@pytest.mark.parametrize("name", ["greenhouse unit", "pantry cupboard", "seed store"])
def test_the_kernel_grants_every_move(name: str) -> None:
    """Solids moved back along each step's way meet nothing that stands by then."""
    unit = good_unit(name)
    before: dict[str, frozenset[str]] = {}
    for step, whole in standing(assembly(unit)):
        stands = frozenset().union(*(before.get(n, frozenset({n})) for n in step.onto))
        for each in whole:
            before[each] = whole
        if step.side is not None and step.stage is not Stage.ON_SITE:
            _moves_freely(unit, step, stands)


def test_a_maker_reads_it_as_the_order_of_the_work() -> None:
    """Greenhouse: the frame, its shelves, the cleat, the covering, then doors, then the wall."""
    unit = good_unit("greenhouse unit")
    order = assembly(unit)
    frame = {first_step(order, n).group for n in ("base", "divider", "top", "left side")}
    assert len(frame) == 1
    assert last_step(order, "left side").side is Side.RIGHT
    assert last_step(order, "cleat, unit half").stage is Stage.AFTER_GLUING
    assert last_step(order, "cleat, unit half").number < last_step(order, "covering").number
    assert last_step(order, "covering").side is Side.BOTTOM
    doors = [last_step(order, f"{hand} door").number for hand in ("right", "left")]
    # The right door runs in the rear track.
    assert doors == sorted(doors)
    shelf = last_step(order, "left frame shelf panel")
    assert shelf.stage is Stage.AFTER_FINISHING
    assert shelf.number < min(doors)
    pins = first_step(order, "pin front left, left frame shelf front")
    assert pins.number < shelf.number
    runner = first_step(order, "runner, track 1")
    assert runner.stage is Stage.AFTER_FINISHING
    assert order.steps[-1].onto == ("cleat, wall half",)
    assert order.steps[-1].stage is Stage.ON_SITE
    # Metal goes into its frame before the fourth member.
    sides = ("front", "back", "left", "right")
    members = [first_step(order, f"left frame shelf {where}").number for where in sides]
    assert first_step(order, "left frame shelf panel").number < max(members)


def test_what_is_trimmed_is_covered_later() -> None:
    """The plinth waits for the base, whose sides are trimmed below it; so does the covering."""
    order = assembly(good_unit("pantry cupboard"))
    plinth, side = last_step(order, "plinth left"), last_step(order, "left side")
    assert plinth.stage is Stage.AFTER_GLUING
    assert plinth.group not in {0, side.group}
    assert first_step(order, "plinth left").stage is Stage.GLUED


def test_the_same_unit_gives_the_same_order() -> None:
    """Equal designs, equal orders, and the parts' own order does not hide anything."""
    for name in ALL:
        assert assembly(good_unit(name)) == assembly(good_unit(name))


def _post_through(size: tuple[float, float]) -> Unit:
    """A post through an opening of 60 by 40 with corners of 8, its foot wider than that."""
    opening = CutOut(
        name="opening",
        centre=(At(Surface.START, 211.0), At(Surface.LOW, 131.0)),
        length=60.0,
        width=40.0,
        corner_radius=8.0,
    )
    shelf = block("shelf", (0.0, 0.0, 200.0), (613.0, 287.0), opening)
    stock = solid_wood("ash", size[1], 690)
    post = board_part(
        name="post",
        role="post",
        stock=stock,
        box_low=UnitPoint(211.0 - size[0] / 2, 131.0 - size[1] / 2, 0.0),
        length=(Side.TOP, 431.0),
        width=(Side.RIGHT, size[0]),
        fence=Side.LEFT,
        stop=Side.BOTTOM,
    )
    return blocks(shelf, post)


@pytest.mark.parametrize(
    ("size", "expected"),
    [((44.0, 39.0), []), ((59.0, 24.0), []), ((50.0, 38.0), ["undecided"])],
)
def test_what_bricks_cannot_tell_is_said(size: tuple[float, float], expected: list[str]) -> None:
    """Within what is square of an opening all is sure; in its round corners it is undecided."""
    unit = _post_through(size)
    assert [finding.rule for finding in locks(unit)] == expected
    assert not assembly(unit).locked
