"""Cautions for the work that can hurt someone, each a sentence for the step that needs it.

They defer to local codes and licensed practice. Common practice, no source.
"""

from __future__ import annotations

BLADES = (
    "Blades and cutters: guards on, dust drawn off, eyes, ears and lungs protected; unplug before "
    "changing a cutter."
)
METAL = (
    "Sheet metal has sharp edges and its chips are hot: gloves off at turning tools, on for "
    "handling; deburr first, and keep sparks away from wood dust."
)
SOLVENTS = (
    "Glue, paint and solvents: read the label, open the windows, keep flames and sparks away, "
    "wear the gloves and the filter that the label names."
)
RAGS = (
    "Rags wet with drying oil can catch fire by themselves: dry them singly outdoors, or keep "
    "them under water in a closed metal can."
)
WEIGHTS = "All weights are computed from densities; weigh what you lift."
WALL = (
    "Before drilling the wall: find cables and pipes, and follow local codes. Choose the fixings "
    "for the wall you have; ask a licensed person where in doubt."
)
CABLES = (
    "Hatched on the wall elevation: where cables are likely by BS 7671, 522.6.202; outside there "
    "may be some all the same, so test with a detector, switch off at the board where in doubt, and leave wiring and "
    "anything unclear to a licensed electrician and your local code."
)
LIFTING = (
    "Lifting: the figures are guidance for a close two-handed lift with good footing, no legal "
    "limits. Clear the floor, wear shoes, and let nobody stand below."
)
TIPPING = "Where a child can reach the unit, fix it to the wall so that it cannot tip."
