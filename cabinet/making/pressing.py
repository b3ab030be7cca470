"""How the joints of one go are pressed: rows of clamps, coverings over a face, panels in grooves.

Screws pull their joint together and a thin panel is held by its grooves: these take no clamps.
Lengths in mm.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from cabinet.design import Unit
from cabinet.frame import UnitBox
from cabinet.making.clamping import CAUL, FACE, ClampRow, along, cone, face_row, line_row
from cabinet.making.glue import Glue
from cabinet.making.glue_lines import GlueLine, beside, clamp_rows
from cabinet.making.jaws import reaches
from cabinet.part import Part
from cabinet.workshop import Clamp

# A panel thinner than this is held by its grooves, or pressed by weights or pins, and takes no
# clamps (common practice, no source).
THIN = 10.0


@dataclass(frozen=True, slots=True)
class Pressing:
    """The joints of a unit as they are pressed.

    Attributes:
        unit: The unit.
        clamps: The clamps that there are.
    """

    unit: Unit
    clamps: tuple[Clamp, ...]

    def covering(self, lines: Sequence[GlueLine]) -> Part | None:
        """The covering among glue lines: glued on oversize and trimmed there; None without one."""
        for line in lines:
            for name in line.parts:
                part = self.unit.by_name[name]
                if part.board.is_glued_on_oversize:
                    return part
        return None

    def rows(
        self, lines: Sequence[GlueLine], glue: Glue, standing: Collection[str]
    ) -> tuple[ClampRow, ...]:
        """Rows of clamps; none for what screws pull together or grooves hold by themselves.

        Args:
            lines: The joints that are glued in one go.
            glue: With what.
            standing: Names of all parts that stand together when they are pressed.
        """
        if not glue.is_pressed:
            return ()
        covering = self.covering(lines)
        if covering is not None:
            return (self._covering_row(covering, lines),)
        chains = list(clamp_rows([line for line in lines if self._needs_clamps(line)]))
        longer = [chain for chain in chains if along(chain[0].length) > 1]
        rows, shared = [], set()
        for chain in chains:
            host = self._host(chain, longer)
            if host is None:
                rows.append(chain)
            else:
                shared.add(host[0].index)
        boxes = [self.unit.by_name[name].box for name in sorted(standing)]
        return tuple(self._row(chain, boxes, is_shared=chain[0].index in shared) for chain in rows)

    def _needs_clamps(self, line: GlueLine) -> bool:
        return not line.screws and self.panel(line) is None

    def panel(self, line: GlueLine) -> str | None:
        """The thin panel of a joint: its grooves hold it, weights or pins press it flat."""
        board = self.unit.by_name[line.parts[0]].board
        is_panel = board.thickness < THIN and min(board.length, board.width) >= FACE
        return line.parts[0] if is_panel and self.covering((line,)) is None else None

    def _host(
        self, chain: Sequence[GlueLine], longer: Sequence[Sequence[GlueLine]]
    ) -> Sequence[GlueLine] | None:
        """A longer row beside a short joint, near enough that its cauls press that as well."""
        if any(chain is other for other in longer):
            return None
        for other in longer:
            within = [
                gap is not None and gap <= cone(CAUL + self._outer_thickness(line, member)) / 2
                for line in chain
                for member in other
                if (gap := beside(line, member)) is not None
            ]
            if len(within) >= len(chain) and any(within):
                return other
        return None

    def _outer_thickness(self, line: GlueLine, member: GlueLine) -> float:
        """Of the part that both joints press on, along the axis in which they are pressed."""
        common = sorted(set(line.parts) & set(member.parts))
        return min(self.unit.by_name[name].box.size[line.axis] for name in common)

    def _covering_row(self, covering: Part, lines: Sequence[GlueLine]) -> ClampRow:
        axis = covering.placement.up.axis
        under = [n for line in lines for n in line.parts if n != covering.name]
        length, width = covering.board.rough_size
        below = max(lines, key=lambda line: line.area)
        host = next(n for n in below.parts if n != covering.name)
        thick = covering.board.thickness, self.unit.by_name[host].box.size[axis]
        names = (covering.name, *dict.fromkeys(under))
        return face_row(names, axis, (length, width), thick)

    def _row(
        self, chain: Sequence[GlueLine], standing: Sequence[UnitBox], *, is_shared: bool
    ) -> ClampRow:
        axis = chain[0].axis
        names = tuple(dict.fromkeys(name for line in chain for name in line.parts))
        boxes = [self.unit.by_name[name].box for name in names]
        low = min(tuple(box.low)[axis] for box in boxes)
        high = max(tuple(box.high)[axis] for box in boxes)
        longest = max(chain, key=lambda line: (line.length, line.width))
        if longest.width >= FACE:
            thick = tuple(self.unit.by_name[name].box.size[axis] for name in longest.parts)
            return face_row(names, axis, (longest.length, longest.width), (thick[0], thick[1]))
        return line_row(
            names,
            axis,
            longest.length,
            high - low,
            is_shared=is_shared,
            reaches=reaches(longest, standing, (low, high)),
            clamps=self.clamps,
        )
