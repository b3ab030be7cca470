"""A design: parts, joints, hardware and moves from components; resolved, a unit.

The design collects what the components return and puts each joint's features on its parts.
Nothing is edited afterwards: a changed number makes a new design.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import combinations

from cabinet.board import BoardSize
from cabinet.errors import DesignError, KindError
from cabinet.features import Feature
from cabinet.frame import UnitBox, UnitPoint
from cabinet.hardware import Hardware
from cabinet.joint import Joint, Proof
from cabinet.motion import Move
from cabinet.part import Board, Part, find_part
from cabinet.quantity import kind_of, short_name
from cabinet.seen import with_what_is_seen


@dataclass(frozen=True, slots=True, kw_only=True)
class Component:
    """What one component brings to a design.

    Attributes:
        parts: Parts that are made, without the features that joints will put on them.
        joints: What ties them to each other and to parts of other components.
        hardware: Bought pieces that belong to no joint.
        moves: How its parts move in use.
        proofs: What the solids must prove beyond what the joints ask.
        outline: Boxes that its parts are meant to keep within, in the unit.
    """

    parts: tuple[Part, ...] = ()
    joints: tuple[Joint, ...] = ()
    hardware: tuple[Hardware, ...] = ()
    moves: tuple[Move, ...] = ()
    proofs: tuple[Proof, ...] = ()
    outline: tuple[UnitBox, ...] = ()


def together(*components: Component) -> Component:
    """Several components as one, in this order."""
    return Component(
        parts=tuple(p for c in components for p in c.parts),
        joints=tuple(j for c in components for j in c.joints),
        hardware=tuple(h for c in components for h in c.hardware),
        moves=tuple(m for c in components for m in c.moves),
        proofs=tuple(p for c in components for p in c.proofs),
        outline=tuple(b for c in components for b in c.outline),
    )


# No slots: what follows from the parts is found once and kept.
@dataclass(frozen=True, kw_only=True)
class Unit:
    """A resolved design: every part with all of its features.

    Attributes:
        name: Name of the unit.
        outline: The box that nothing may stick out of, as the components declare it.
        parts: All parts that are made, in the order of their numbers.
        joints: All joints.
        hardware: All bought pieces.
        moves: All moves.
        proofs: All that the solids must prove.
        is_hung: Whether it hangs on a wall; otherwise it stands.
    """

    name: str
    outline: UnitBox
    parts: tuple[Part, ...]
    joints: tuple[Joint, ...]
    hardware: tuple[Hardware, ...]
    moves: tuple[Move, ...]
    proofs: tuple[Proof, ...]
    is_hung: bool

    @cached_property
    def by_name(self) -> Mapping[str, Part]:
        """Parts by their names."""
        return {part.name: part for part in self.parts}

    @cached_property
    def boards(self) -> tuple[tuple[Board, tuple[Part, ...]], ...]:
        """Distinct boards, each with the parts made to it, in the order of first use."""
        groups: dict[Board, list[Part]] = {}
        for part in self.parts:
            groups.setdefault(part.board, []).append(part)
        return tuple((board, tuple(parts)) for board, parts in groups.items())

    @cached_property
    def item_names(self) -> Mapping[str, str]:
        """What the board of each part is called on lists, sheets and tags, by the part's name.

        All parts made to one board share it, and no other has it: the only part's own name, or
        what they are; where several boards are the same, with the item number.
        """
        called = [parts[0].name if len(parts) == 1 else parts[0].role for _, parts in self.boards]
        times = Counter(called)
        return {
            part.name: name if times[name] == 1 or len(parts) == 1 else f"{name}, item {item}"
            for item, (name, (_, parts)) in enumerate(
                zip(called, self.boards, strict=True), start=1
            )
            for part in parts
        }

    @cached_property
    def other_hands(self) -> Mapping[str, str]:
        """By the first part made to a board, the first one made to its mirror image, if any is."""
        found: dict[str, str] = {}
        for (one, mine), (other, twins) in combinations(self.boards, 2):
            if one.is_mirror_of(other):
                found.setdefault(mine[0].name, twins[0].name)
                found.setdefault(twins[0].name, mine[0].name)
        return found


@dataclass(frozen=True, slots=True)
class Design:
    """A named unit made of components.

    Args:
        name: Name of the unit, as it stands on every sheet.
        components: What its components return, carcass first.
        is_hung: Whether it hangs on a wall; otherwise it stands.

    Raises:
        KindError: components that are no tuple or list, or ``is_hung`` neither true nor false.
        DesignError: no parts, two parts of one name, or something that is no component.
    """

    name: str
    components: tuple[Component, ...]
    is_hung: bool = True

    def __post_init__(self) -> None:
        short_name("design", "name", self.name)
        right = "carcass.component and what else there is"
        if not isinstance(self.components, tuple | list):
            raise KindError(
                f"{self.name}: components are a {type(self.components).__name__}; give a tuple of "
                f"{right}, even of one: (box.component,)",
                part=self.name,
                value=type(self.components).__name__,
                limit="a tuple of components",
            )
        object.__setattr__(self, "components", tuple(self.components))
        kind_of(self.name, "is_hung", self.is_hung, bool, right="True or False")
        for index, component in enumerate(self.components):
            if not isinstance(component, Component):
                raise DesignError(
                    f"{self.name}: component {index + 1} is a {type(component).__name__}; "
                    "give what holds its parts and joints, such as carcass.component",
                    part=self.name,
                    value=type(component).__name__,
                    limit="Component",
                )
        whole = together(*self.components)
        if not whole.parts:
            raise DesignError(f"{self.name}: there are no parts; add a carcass", part=self.name)
        _refuse_doubles(self.name, [part.name for part in whole.parts])

    def resolve(self) -> Unit:
        """Put the features of all joints on their parts.

        Raises:
            UnknownNameError: a joint ties a part that does not exist.
            DesignError: a joint's parts do not lie as the joint needs them, or two bodies
                have one name.
            SizeError: a feature that its board cannot have.
        """
        whole = together(*self.components)
        plain = {part.name: part for part in whole.parts}
        added: dict[str, list[Feature]] = {name: [] for name in plain}
        hardware: list[Hardware] = []
        proofs: list[Proof] = []
        for joint in whole.joints:
            for name in joint.parts:
                find_part(plain, name)
            for name, feature in joint.features(plain):
                added[name].append(feature)
            hardware.extend(joint.hardware(plain))
            proofs.extend(joint.proofs(plain))
        hardware.extend(whole.hardware)
        proofs.extend(whole.proofs)
        parts = tuple(
            part.with_features(*_settled(added[part.name], part.board.size))
            for part in plain.values()
        )
        _refuse_doubles(self.name, [p.name for p in parts] + [h.name for h in hardware])
        return Unit(
            name=self.name,
            outline=around(whole.outline or tuple(part.box for part in parts)),
            parts=with_what_is_seen(parts, whole.joints),
            joints=whole.joints,
            hardware=tuple(hardware),
            moves=whole.moves,
            proofs=tuple(proofs),
            is_hung=self.is_hung,
        )


def _settled(features: list[Feature], size: BoardSize) -> tuple[Feature, ...]:
    """Features in an order that does not depend on the joints' order, each with its own name.

    Equal names, such as the slots at both ends of a rail, are numbered by place, so that two
    boards made alike are equal however they are turned in the unit.
    """
    # Joints that share a cut, such as two doors in one track, name it alike and ask for it once.
    ordered = sorted(set(features), key=lambda f: (type(f).__name__, f.name, f.box(size).low))
    times = Counter(feature.name for feature in ordered)
    met: Counter[str] = Counter()
    settled = []
    for feature in ordered:
        met[feature.name] += 1
        number = f" {met[feature.name]}" if times[feature.name] > 1 else ""
        settled.append(replace(feature, name=f"{feature.name}{number}"))
    return tuple(settled)


def _refuse_doubles(owner: str, names: Iterable[str]) -> None:
    seen: set[str] = set()
    for name in names:
        if name in seen:
            raise DesignError(
                f"{owner}: two parts are called {name!r}; each needs its own name",
                part=name,
                value=name,
                limit="distinct names",
            )
        seen.add(name)


def around(boxes: Iterable[UnitBox]) -> UnitBox:
    """The smallest upright box around boxes in the unit."""
    them = tuple(boxes)
    low = [min(tuple(box.low)[axis] for box in them) for axis in range(3)]
    high = [max(tuple(box.high)[axis] for box in them) for axis in range(3)]
    return UnitBox(low=UnitPoint(*low), high=UnitPoint(*high))
