"""What stands at each step of the assembly: the bodies that are one rigid thing by then."""

from __future__ import annotations

from collections.abc import Iterator

from cabinet.assembly import Assembly, Step


def standing(order: Assembly) -> Iterator[tuple[Step, frozenset[str]]]:
    """Each step with the names of all that hang together once it is done, its own included."""
    group: dict[str, frozenset[str]] = {}
    for step in order.steps:
        whole = frozenset(step.bodies)
        for name in (*step.bodies, *step.onto):
            whole |= group.get(name, frozenset({name}))
        for name in whole:
            group[name] = whole
        yield step, whole


def when(order: Assembly) -> dict[str, tuple[Step, frozenset[str]]]:
    """For each body the step that first brings it, and what stands when that is done."""
    found: dict[str, tuple[Step, frozenset[str]]] = {}
    for step, whole in standing(order):
        for name in step.bodies:
            found.setdefault(name, (step, whole))
    return found


__all__ = ["standing", "when"]
