"""An operation at the bench as data: tool, guide, cutter, distances, depth, what lies up.

It holds what the bench needs and nothing else: distances from the edge that runs against the
fence and from the end that lies against the stop. A board can be cut from its operations
alone. Lengths in mm, angles in degrees.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from cabinet.board import At, Surface
from cabinet.quantity import named, positive, within


class Work(Enum):
    """What is done."""

    TO_SIZE = "cut to size"
    GROOVE = "groove"
    REBATE = "rebate"
    BEVEL = "bevel"
    BORE = "bore"
    COUNTERSINK = "countersink"
    OPENING = "opening"
    NOTCH = "notch"
    SLOT = "biscuit slot"
    TRIM = "trim flush"
    BOUGHT = "comes so"


class Tool(Enum):
    """The machine or the hand that does it."""

    SAW = "saw"
    ROUTER = "router"
    BISCUIT_JOINTER = "biscuit jointer"
    DRILL = "drill"
    PILLAR_DRILL = "pillar drill"
    HAND = "hand tools"
    NONE = "nothing to do"


class Guide(Enum):
    """What leads the tool along the work."""

    FENCE = "fence"
    STRAIGHT_EDGE = "straight-edge"
    TEMPLATE = "template and guide bush"
    BEARING = "bearing"
    JIG = "hole jig"
    MARKS = "marks"


class Phase(Enum):
    """When it is done: a later phase never comes before an earlier one."""

    SIZE = "when doubled boards are dry"
    FLAT = "before gluing"
    GLUED = "after gluing"


@dataclass(frozen=True, slots=True, kw_only=True)
class Operation:
    """One operation on one board.

    Attributes:
        name: What the cut is for, as on the part's sheet.
        work: What is done.
        tool: What does it.
        guide: What leads the tool.
        phase: When.
        face: Surface that lies up, or into which the tool goes.
        reference: Surface that lies against the fence.
        cutter: Diameter of cutter or drill, thickness of a blade, mm; 0 where none matters.
        swath: Width that one pass takes as it is drawn, mm: the cutter's own, or the groove's
            where a blade is wider than it by no more than the groove's tolerance.
        passes: From the fence to the nearer side of the cutter for each pass, mm; negative
            where a cutter stands partly past the edge. For holes and slots one number: to the
            middle. For a bevel or a cut to size: to the cut, on ``face``.
        depth: From ``face``, mm; None goes through.
        angle: Tilt of a saw from square, or the whole angle of a countersink, degrees.
        stop: Surface from which ``places`` are told.
        places: Middles of holes, slots and openings along the board, from ``stop``, mm.
        start: Where a stopped cut begins, told from an end; None runs out.
        end: Where it stops; None runs out.
        corner: Radius in the corners of a stopped cut or an opening, mm; 0 is squared by hand.
        size: Of an opening along the board's length and width; of a notch along its edge and
            into the board; of a countersink its diameter, mm.
        allowance: Wood outside the finished size on every edge, mm, when cut to size.
    """

    name: str
    work: Work
    tool: Tool
    guide: Guide
    phase: Phase
    face: Surface
    reference: Surface
    cutter: float = 0.0
    swath: float = 0.0
    passes: tuple[float, ...] = ()
    depth: float | None = None
    angle: float = 0.0
    stop: Surface | None = None
    places: tuple[float, ...] = ()
    start: At | None = None
    end: At | None = None
    corner: float = 0.0
    size: tuple[float, ...] = ()
    allowance: float = 0.0

    def __post_init__(self) -> None:
        named("operation", "name", self.name)
        if self.depth is not None:
            positive(self.name, "depth", self.depth)
        within(self.name, "angle", self.angle, 0.0, 120.0, unit="degrees")
        within(self.name, "cutter", self.cutter, 0.0, 500.0)

    @property
    def run_axis(self) -> int:
        """Board axis along which the cut runs or the holes are set out."""
        return 3 - self.face.axis - self.reference.axis


def sawn_to_size(reference: Surface, extent: float, allowance: float, kerf: float) -> Operation:
    """The cut that brings an oversize board to its size, along a fence.

    Args:
        reference: What lies against the fence.
        extent: From there to the cut, mm.
        allowance: What comes off, mm.
        kerf: Width of the saw's cut, mm.
    """
    return Operation(
        name=f"{'width' if reference.axis == 1 else 'length'} of the board",
        work=Work.TO_SIZE,
        tool=Tool.SAW,
        guide=Guide.FENCE,
        phase=Phase.SIZE,
        face=Surface.A,
        reference=reference,
        cutter=kerf,
        passes=(round(extent, 6),),
        allowance=round(allowance, 6),
    )
