"""Joints, each kind in a file of its own; see ``cabinet.joint.base`` for what all of them are."""

from cabinet.joint.base import (
    GLUED_FIT,
    LEAST_BETWEEN,
    LEAST_THREAD,
    SAME,
    SLIDING_FIT,
    TONGUE_FIT,
    Features,
    Gap,
    Joint,
    Parts,
    Proof,
    Touch,
    datum_side,
)
from cabinet.joint.biscuits import Biscuits, biscuit_for, biscuit_room
from cabinet.joint.butt import Butt, Crossing
from cabinet.joint.housing import Housing
from cabinet.joint.opening import Opening
from cabinet.joint.rows import BoredRow, PinRows
from cabinet.joint.screwed import Screwed
from cabinet.joint.track import Track

__all__ = [
    "GLUED_FIT",
    "LEAST_BETWEEN",
    "LEAST_THREAD",
    "SAME",
    "SLIDING_FIT",
    "TONGUE_FIT",
    "Biscuits",
    "BoredRow",
    "Butt",
    "Crossing",
    "Features",
    "Gap",
    "Housing",
    "Joint",
    "Opening",
    "Parts",
    "PinRows",
    "Proof",
    "Screwed",
    "Touch",
    "Track",
    "biscuit_for",
    "biscuit_room",
    "datum_side",
]
