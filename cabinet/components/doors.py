"""Sliding doors that run on round bars in grooves of top and base.

A door is lifted into the deep groove of the top, swung in over the base and dropped on to its
bar. All depths follow from the bar and the least engagement; see ``DoorTracks``. Lengths in mm.

Source of the rules: common practice, no source, unless said otherwise beside the number.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from cabinet.components.carcass import Carcass, require_carcass
from cabinet.design import Component
from cabinet.errors import DesignError
from cabinet.features import Hole
from cabinet.frame import Side, UnitPoint
from cabinet.joint import Track
from cabinet.motion import Motion, Move
from cabinet.part import Part, board_part
from cabinet.quantity import finite, kind_of, positive, tenths, whole, within
from cabinet.stock import Stock, require_stock

# The lower tongue goes this far into the base's groove, so that it cannot ride off its bar.
ENGAGED_BELOW = 3.0
# The upper tongue stays this far in the top groove (at least 4 to 5 in the worst case).
ENGAGED_ABOVE = 6.0
# The lower shoulder hangs clear of the base by this.
SHOULDER_CLEAR = 0.8
# Lifted to go in or out, the foot clears the base's face by this.
FOOT_CLEAR = 1.0
# Lifted, the head keeps this from the bottom of its groove and the shoulder from the top.
HEAD_CLEAR = 1.0
# Wood between the two grooves, at least (a furniture maker's page: 6 or more).
LEAST_WALL = 6.0
# Doors pass each other with this between their bodies (2 to 4).
BODY_GAP = 3.0
# A bar ends this far from each side, so that it is laid in and lifted out between them.
BAR_PLAY = 0.5
# Nothing is housed nearer behind the rear groove than this, so that wood is left between.
BEHIND_DOORS = 4.0
# Finger safety, EN 14749 5.2.1 as read in a test report: openings of 25 or more (or 8 or less).
LEAST_PULL = 25.0
# Pairs of grooves, one behind the other: fewer and doors could not lie over each other.
TRACKS = 2


def groove_needed(tongue: float, height: float, opening: float, angle: float) -> float:
    """Width of groove that the tongue of a leaning door fills, mm.

    The door stands on the back corner of its foot, leans its foot out by the angle, and its
    head is up in the groove. The tongue's two faces lean, so between the groove's mouth and the
    head's front corner they fill ``t / cos a + H sin a - h tan a`` (derived from its corners).

    Args:
        tongue: Thickness of the tongue at the back of the door, mm.
        height: Height of the door over both tongues, mm.
        opening: Clear height between base and top, mm.
        angle: Lean, radians.
    """
    return tongue / math.cos(angle) + height * math.sin(angle) - opening * math.tan(angle)


@dataclass(frozen=True, slots=True, kw_only=True)
class DoorTracks:
    """How doors run: everything across the depth and the height but not the width.

    Attributes:
        stock: Sheet for the doors.
        bar: Diameter of the round bar in the lower groove; it is as wide as the groove.
        lip: From the front edge of top and base to the front groove.
        play: Groove wider than the tongue by this in all (0.5 to 1).
    """

    stock: Stock
    bar: float
    lip: float = 10.0
    play: float = 1.0

    def __post_init__(self) -> None:
        owner = "door tracks"
        require_stock(owner, "stock", self.stock)
        positive(owner, "bar", self.bar)
        positive(owner, "lip", self.lip)
        within(owner, "play", self.play, 0.5, 2.0)
        within(
            owner,
            "bar",
            self.bar,
            3.0 + self.play,
            self.stock.measured - 2.0 + self.play,
            why=f"the tongue, bar less play, needs 3 and a shoulder of 2 on a door of "
            f"{self.stock.measured:g}",
        )
        if self.pitch - self.bar < LEAST_WALL:
            raise DesignError(
                f"{owner}: a bar of {self.bar:g} mm leaves {self.pitch - self.bar:.1f} mm of wood "
                f"between the grooves; at least {LEAST_WALL:g} mm, so a bar of at most "
                f"{self.pitch - LEAST_WALL:.1f} mm",
                part=owner,
                value=self.bar,
                limit=self.pitch - LEAST_WALL,
            )

    @property
    def tongue(self) -> float:
        """Thickness of the tongues."""
        return self.bar - self.play

    @property
    def pitch(self) -> float:
        """From one groove to the next, so that door bodies pass with BODY_GAP between them."""
        return self.stock.measured + BODY_GAP

    @property
    def depth(self) -> float:
        """From the front edge to where dividers and shelves may begin."""
        return self.lip + self.bar + self.pitch + BEHIND_DOORS

    @property
    def lift(self) -> float:
        """How far a door must rise to come out."""
        return ENGAGED_BELOW + FOOT_CLEAR

    @property
    def base_groove(self) -> float:
        """Depth of the grooves in the base: the bar and the engaged tongue."""
        return self.bar + ENGAGED_BELOW

    @property
    def top_groove(self) -> float:
        """Depth of the grooves in the top: engagement, lift and room above."""
        return ENGAGED_ABOVE + self.lift + HEAD_CLEAR

    @property
    def lower_tongue(self) -> float:
        """Length of the lower tongue."""
        return ENGAGED_BELOW + SHOULDER_CLEAR

    @property
    def upper_tongue(self) -> float:
        """Length of the upper tongue: the shoulder needs the lift as well as the groove does."""
        return ENGAGED_ABOVE + self.lift + HEAD_CLEAR

    def door_height(self, opening: float) -> float:
        """Height of a door over both tongues, for a clear height of the opening."""
        return opening + ENGAGED_BELOW + ENGAGED_ABOVE

    def width_askew(self, opening: float, distance: float) -> float:
        """Groove width that a tongue needs while the door leans, foot out, head in.

        The foot swings in over the base while the door leans by up to asin(s / H).

        Args:
            opening: Clear height h.
            distance: s, from the base's front edge to the back of the track.
        """
        height = self.door_height(opening)
        steepest = math.asin(min(0.999, distance / height))
        # What is needed grows with the lean up to cos(a) ** 3 = h / H and falls after that.
        worst = min(steepest, math.acos((opening / height) ** (1 / 3)))
        return max(groove_needed(self.tongue, height, opening, a) for a in (0.0, worst))


def sliding_doors(
    carcass: Carcass,
    tracks: DoorTracks,
    *,
    count: int = 2,
    overlap: float = 40.0,
    pull: float = 30.0,
    pull_inset: float = 45.0,
) -> Component:
    """Doors that slide past each other, front and rear tracks by turns.

    Args:
        carcass: The carcass whose top and base guide them.
        tracks: How they run.
        count: How many doors, 2 to 4.
        overlap: How far neighbours lie over each other when closed (20 to 50), mm.
        pull: Diameter of the drilled finger pulls, mm.
        pull_inset: Centre of a pull from what is seen of the door at its outer edge, mm.

    Raises:
        SizeError: an overlap or a pull out of range.
        DesignError: a top or base too thin for the grooves, or a door that cannot be swung in.
    """
    require_carcass("sliding doors", carcass)
    kind_of("sliding doors", "tracks", tracks, DoorTracks, right="DoorTracks(stock=..., bar=...)")
    whole("sliding doors", "count", count, 2, 4)
    finite("sliding doors", "overlap", overlap)
    inner = carcass.inner
    width = tenths((inner.size[0] + (count - 1) * overlap) / count, up=True)
    # Two doors of one track must leave each other room to slide.
    least_share = 2 if count == TRACKS else 3
    within(
        "sliding doors",
        "overlap",
        overlap,
        10.0,
        width / least_share,
        why="doors must cover the opening",
    )
    within("sliding doors", "pull", pull, LEAST_PULL, 60.0, why="a finger must go in and come out")
    # A door between two others has its pull beyond the neighbour that lies over its edge.
    most = width / 2 - (overlap if count > 2 else 0.0)
    within("sliding doors", "pull inset", pull_inset, pull / 2 + 10.0, most)
    # Doors cut to tenths lie a trace further over each other.
    overlap = (count * width - inner.size[0]) / (count - 1)
    _refuse_thin(carcass, tracks)
    _refuse_jammed(carcass, tracks)
    names = [f"{_place(i, count)} door" for i in range(count)]
    doors = tuple(
        _door(carcass, tracks, name, i, count, (width, overlap), (pull, pull_inset))
        for i, name in enumerate(names)
    )
    # The base runs into the sides; a bar as long as the base could only be laid in before them.
    base = next(part for part in carcass.component.parts if part.name == "base")
    short = inner.low.x - base.box.low.x + BAR_PLAY
    joints = tuple(
        joint for i, name in enumerate(names) for joint in _tracks_of(i, name, tracks, short)
    )
    moves: list[Move] = []
    for i, name in enumerate(names):
        # Counted from both ends, so that a door at the end of its travel has exactly none left;
        # doors of one track limit each other, pushed together at that end.
        before, after = i // TRACKS, (count - 1 - i) // TRACKS
        left = i * (width - overlap) - before * width
        right = (count - 1 - i) * (width - overlap) - after * width
        moves.append(
            Move(
                name=f"{name} slides",
                motion=Motion.SLIDE,
                parts=(name,),
                side=Side.RIGHT,
                low=-left,
                high=right,
            )
        )
        moves.append(
            Move(
                name=f"{name} lifts",
                motion=Motion.LIFT,
                parts=(name,),
                side=Side.TOP,
                low=0.0,
                high=tracks.lift,
            )
        )
    return Component(parts=doors, joints=joints, moves=tuple(moves))


def _place(index: int, count: int) -> str:
    if count == 2:
        return ("left", "right")[index]
    if count == 3:
        return ("left", "middle", "right")[index]
    return ("left", "middle left", "middle right", "right")[index]


def _refuse_thin(carcass: Carcass, tracks: DoorTracks) -> None:
    for name, thick, groove in (
        ("top", carcass.box.high.z - carcass.inner.high.z, tracks.top_groove),
        ("base", carcass.inner.low.z - carcass.box.low.z, tracks.base_groove),
    ):
        # Never deeper than half of the board (common practice).
        if groove > thick / 2 + 1e-9:
            raise DesignError(
                f"{name}: door grooves {groove:g} mm deep are too deep for a board of {thick:g} mm; "
                f"at most half of it, {thick / 2:g} mm: double the {name} or take a thinner bar",
                part=name,
                value=groove,
                limit=thick / 2,
            )


def _refuse_jammed(carcass: Carcass, tracks: DoorTracks) -> None:
    opening = carcass.inner.size[2]
    # The rear track is the hardest: there the foot has the longest way in.
    distance = tracks.lip + tracks.bar + tracks.pitch
    need = tracks.width_askew(opening, distance)
    if need > tracks.bar:
        # More play thins the tongue, which leaning fills no less of the groove than upright.
        least = math.ceil(100 * (tracks.play + need - tracks.bar)) / 100
        raise DesignError(
            f"sliding doors: swung in, the upper tongue needs a groove {need:.2f} mm wide in "
            f"track {TRACKS} but it is {tracks.bar:g} mm; give play of at least "
            f"{least:g} mm",
            part="sliding doors",
            value=tracks.play,
            limit=least,
        )


def _door(
    carcass: Carcass,
    tracks: DoorTracks,
    name: str,
    index: int,
    count: int,
    across: tuple[float, float],
    pulls: tuple[float, float],
) -> Part:
    width, overlap = across
    inner = carcass.inner
    groove = tracks.lip + (index % TRACKS) * tracks.pitch
    back = groove + tracks.bar - tracks.play / 2
    left = inner.low.x + index * (width - overlap)
    height = tracks.door_height(inner.size[2])
    # The outer edge is the datum: the pull is set out from it.
    outer = Side.LEFT if index < count / 2 else Side.RIGHT
    door = board_part(
        name=name,
        role="door",
        stock=tracks.stock,
        box_low=UnitPoint(left, back - tracks.stock.measured, inner.low.z - ENGAGED_BELOW),
        length=(Side.TOP, height),
        width=(Side.LEFT, width),
        fence=outer,
        stop=Side.BOTTOM,
        shows=(Side.FRONT, Side.BACK, Side.LEFT, Side.RIGHT),
        group="doors",
    )
    diameter, inset = pulls
    if 0 < index < count - 1:
        inset += overlap
    middle = inner.low.z + inner.size[2] / 2
    x = left + inset if outer is Side.LEFT else left + width - inset
    return door.with_features(
        Hole(
            name="finger pull",
            surface=door.surface(Side.FRONT),
            centre=(door.at(Side.BOTTOM, middle), door.at(outer, x)),
            diameter=diameter,
        )
    )


def _tracks_of(index: int, name: str, tracks: DoorTracks, short: float) -> tuple[Track, Track]:
    """A door's tracks above and below; doors in one track share its grooves and its bar."""
    track = index % TRACKS + 1
    return (
        Track(
            door=name,
            board="top",
            side=Side.TOP,
            tongue=tracks.tongue,
            tongue_length=tracks.upper_tongue,
            depth=tracks.top_groove,
            play=tracks.play,
            track=track,
        ),
        Track(
            door=name,
            board="base",
            side=Side.BOTTOM,
            tongue=tracks.tongue,
            tongue_length=tracks.lower_tongue,
            depth=tracks.base_groove,
            play=tracks.play,
            bar=tracks.bar,
            track=track,
            brings_bar=index < TRACKS,
            bar_short=round(short, 6),
        ),
    )
