"""Glues as data: how much, how long it stays open, how it is pressed and when it is dry.

PVA: a maker's sheet for a cold-press grade (read): open about 5 min, closed about 20 min, press
30 to 60 min at 40 to 50 psi (0.28 to 0.34 MPa), 6 to 8 wet mils or about 165 to 225 g/m2, not
below 18 C, machine after 2 to 3 h; full strength after 24 h, clamps 8 to 12 in apart and 1.5 to
2 in from the ends (another maker's guide, read). Opinions on pressure differ tenfold, so it is
guidance. Contact adhesive: common practice, no source; the tin's own sheet goes first.
"""

from __future__ import annotations

from dataclasses import dataclass

from cabinet.quantity import Range, finite, least_and_most, named, positive, whole

# Each range of a glue with its unit.
_RANGES = {
    "spread": "g/m2",
    "press_minutes": "min",
    "pressure": "MPa",
    "wait_minutes": "min",
    "machine_hours": "h",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Glue:
    """One glue; every pair is the least and the most.

    Attributes:
        name: What it is called.
        spread: Grams on a square metre of one face.
        faces: On how many of the two faces it is spread.
        open_minutes: A face that is spread must be closed within this time.
        closed_minutes: From the first spread to the last clamp, at most.
        press_minutes: In clamps; (0, 0) for a glue that is only rolled down.
        pressure: Over a whole face, MPa.
        wait_minutes: Left open before the faces are put together.
        machine_hours: Until it may be cut.
        full_hours: Until it bears its full load.
        least_celsius: Not to be used below this temperature.
        source: Where the figures are from.

    Raises:
        SizeError: a figure that is negative or no finite number, or a pair whose most comes first.
    """

    name: str
    spread: Range
    faces: int = 1
    open_minutes: float
    closed_minutes: float
    press_minutes: Range
    pressure: Range
    wait_minutes: Range = (0.0, 0.0)
    machine_hours: Range
    full_hours: float
    least_celsius: float
    source: str

    def __post_init__(self) -> None:
        named("glue", "name", self.name)
        positive(self.name, "open time", self.open_minutes, unit="min")
        positive(self.name, "closed time", self.closed_minutes, unit="min")
        finite(self.name, "least temperature", self.least_celsius, unit="C")
        positive(self.name, "hours until full strength", self.full_hours, unit="h")
        whole(self.name, "faces that are spread", self.faces, 1, 2)
        for what, unit in _RANGES.items():
            least_and_most(self.name, what.replace("_", " "), getattr(self, what), unit=unit)

    @property
    def is_pressed(self) -> bool:
        """Whether it needs clamps."""
        return self.press_minutes[1] > 0

    def grams(self, area: float) -> Range:
        """Glue for an area of joint in mm2: least and most, g."""
        return (
            area / 1e6 * self.spread[0] * self.faces,
            area / 1e6 * self.spread[1] * self.faces,
        )


PVA = Glue(
    name="PVA wood glue",
    spread=(165.0, 225.0),
    open_minutes=5.0,
    closed_minutes=20.0,
    press_minutes=(30.0, 60.0),
    pressure=(0.28, 0.34),
    machine_hours=(2.0, 3.0),
    full_hours=24.0,
    least_celsius=18.0,
    source="a glue maker's sheet",
)

CONTACT = Glue(
    name="contact adhesive",
    spread=(120.0, 180.0),
    faces=2,
    open_minutes=60.0,
    closed_minutes=60.0,
    press_minutes=(0.0, 0.0),
    pressure=(0.3, 0.5),
    wait_minutes=(10.0, 20.0),
    machine_hours=(1.0, 2.0),
    full_hours=24.0,
    least_celsius=15.0,
    source="common practice, no source",
)
