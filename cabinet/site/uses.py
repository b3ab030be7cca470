"""What the unit is used for: loads with their places, how long they lie, and whether damp."""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.errors import DesignError
from cabinet.quantity import kind_of, member, named, positive, several, within
from cabinet.site.service import STANDARD_GRAVITY, Duration, ServiceClass

# More than this on one shelf is a slip of the pen, kg.
MOST_KILOGRAMS = 1000.0


@dataclass(frozen=True, slots=True, kw_only=True)
class SpreadLoad:
    """A mass in kg spread evenly over a shelf, the top or the base, named by ``place``."""

    place: str
    kilograms: float

    def __post_init__(self) -> None:
        named("load", "place", self.place)
        owner = f"load on {self.place}"
        positive(owner, "mass", self.kilograms, unit="kg")
        within(owner, "mass", self.kilograms, 0.0, MOST_KILOGRAMS, unit="kg")


@dataclass(frozen=True, slots=True, kw_only=True)
class AreaLoad:
    """A pressure in N/m2 over the whole of a shelf, the top or the base."""

    place: str
    pressure: float

    def __post_init__(self) -> None:
        named("load", "place", self.place)
        owner = f"load on {self.place}"
        positive(owner, "pressure", self.pressure, unit="N/m2")
        within(owner, "pressure", self.pressure, 0.0, 20_000.0, unit="N/m2")


@dataclass(frozen=True, slots=True, kw_only=True)
class SpotLoad:
    """A mass in kg that stands on one spot.

    Attributes:
        place: Name of the shelf, ``top`` or ``base``.
        kilograms: Mass.
        from_left: From the left end of the shelf, mm; None for its middle.
    """

    place: str
    kilograms: float
    from_left: float | None = None

    def __post_init__(self) -> None:
        named("load", "place", self.place)
        owner = f"load on {self.place}"
        positive(owner, "mass", self.kilograms, unit="kg")
        within(owner, "mass", self.kilograms, 0.0, MOST_KILOGRAMS, unit="kg")
        if self.from_left is not None:
            within(owner, "place from the left", self.from_left, 0.0, 10_000.0)


Load = SpreadLoad | AreaLoad | SpotLoad


@dataclass(frozen=True, slots=True, kw_only=True)
class UseCase:
    """One way in which the unit is used.

    Attributes:
        name: What it is called in findings.
        loads: What lies where.
        duration: How long it lies there.
        is_damp: Whether damp things are put away in it: air must pass, and wood creeps more.
        is_on_show: Whether a sag that the eye sees is already too much.

    Raises:
        SizeError: a blank name, a load without a place or without a size.
        DesignError: something that is no load.
        KindError: a duration that is none.
    """

    name: str
    loads: tuple[Load, ...] = ()
    duration: Duration = Duration.LONG
    is_damp: bool = False
    is_on_show: bool = False

    def __post_init__(self) -> None:
        named("use", "name", self.name)
        member(self.name, "duration", self.duration, Duration)
        kind_of(self.name, "is_damp", self.is_damp, bool, right="True or False")
        kind_of(self.name, "is_on_show", self.is_on_show, bool, right="True or False")
        right = "loads, each with its place"
        object.__setattr__(
            self, "loads", several(self.name, "loads", self.loads, object, right=right)
        )
        for load in self.loads:
            if not isinstance(load, Load):
                raise DesignError(
                    f"{self.name}: {load!r} is no load; give SpreadLoad, AreaLoad or SpotLoad "
                    "with its place",
                    part=self.name,
                    value=load,
                    limit="a load with its place",
                )

    @property
    def service(self) -> ServiceClass:
        """Service class that goes with it."""
        return ServiceClass.DAMP if self.is_damp else ServiceClass.DRY


def newtons(load: Load, area: float) -> float:
    """Weight of a load, N.

    Args:
        load: The load.
        area: Area of what it lies on, mm2.
    """
    if isinstance(load, AreaLoad):
        return load.pressure * area / 1e6
    return load.kilograms * STANDARD_GRAVITY
