"""Marks to SVG in true millimetres. It decides nothing.

Every number is written by ``drawings.number``, and no element has an id, so that the same
marks give the same bytes and sheets can stand beside each other on one page.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from lxml import etree

from cabinet.quantity import named, positive
from drawings.lettering import FAMILY, font_size, text_width
from drawings.marks import Anchor, Arc, Circle, Group, Ink, Line, Mark, PaperPoint, Polyline, Text
from drawings.number import number
from drawings.style import Style

NAMESPACE = "http://www.w3.org/2000/svg"
_SVG = f"{{{NAMESPACE}}}"


def svg_document(
    *, title: str, width: float, height: float, marks: Sequence[Mark], style: Style
) -> str:
    """One sheet as the text of an SVG file, one element a line.

    Args:
        title: What the sheet is, for the file's own title.
        width: Width of the paper, mm; one unit of the drawing is 1 mm.
        height: Height of the paper, mm.
        marks: What is drawn, in this order.
        style: Width, dashes and fill of each ink.

    Returns:
        An XML document; write it as UTF-8. The same arguments give the same bytes.

    Raises:
        SizeError: A size is not positive, or a title holds characters that no XML file may.
        UnknownNameError: The drawing font lacks a letter.
    """
    positive("sheet", "width", width)
    positive("sheet", "height", height)
    paper = {"width": number(width), "height": number(height)}
    root = etree.Element(
        _SVG + "svg",
        {name: f"{size}mm" for name, size in paper.items()},
        nsmap={None: NAMESPACE},
        version="1.1",
        viewBox=f"0 0 {paper['width']} {paper['height']}",
    )
    _add(root, "title", {}).text = named("sheet", "title", title)
    _add(root, "style", {"type": "text/css"}).text = _style_sheet(style)
    _add(root, "rect", {"class": "paper", "x": "0", "y": "0", **paper})
    for mark in marks:
        _add_mark(root, mark)
    etree.indent(root, space="")
    text = etree.tostring(root, encoding="unicode")
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{text}\n'


def _add(parent: etree._Element, tag: str, attributes: dict[str, str]) -> etree._Element:
    return etree.SubElement(parent, _SVG + tag, attributes)


def _style_sheet(style: Style) -> str:
    """One class for each ink, the paper, and the font of all texts."""
    rules = [".paper{fill:#fff;stroke:none}"]
    for ink in Ink:
        line = style.line(ink)
        level = round(line.grey * 255)
        colour = f"#{level:02x}{level:02x}{level:02x}" if level else "#000"
        parts = [f"fill:{colour if line.is_filled else 'none'}"]
        if line.width == 0:
            parts.append("stroke:none")
        else:
            parts += [f"stroke:{colour}", f"stroke-width:{number(line.width)}"]
            if line.dashes:
                parts.append(f"stroke-dasharray:{' '.join(map(number, line.dashes))}")
            else:
                # Lines that meet at a corner close it; dashes must not grow by their caps.
                parts.append("stroke-linecap:round")
            parts.append("stroke-linejoin:round")
        rules.append(f".{ink.value}{{{';'.join(parts)}}}")
    rules.append(f"text{{font-family:{FAMILY};fill:#000;stroke:none;white-space:pre}}")
    return "\n".join(["", *rules, ""])


def _add_mark(parent: etree._Element, mark: Mark) -> None:
    match mark:
        case Line():
            (x1, y1), (x2, y2) = _pair(mark.start), _pair(mark.end)
            ends = {"x1": x1, "y1": y1, "x2": x2, "y2": y2}
            _add(parent, "line", {"class": mark.ink.value, **ends})
        case Polyline():
            points = " ".join(",".join(_pair(point)) for point in mark.points)
            tag = "polygon" if mark.closed else "polyline"
            _add(parent, tag, {"class": mark.ink.value, "points": points})
        case Circle():
            x, y = _pair(mark.centre)
            round_it = {"cx": x, "cy": y, "r": number(mark.radius)}
            _add(parent, "circle", {"class": mark.ink.value, **round_it})
        case Arc():
            _add(parent, "path", {"class": mark.ink.value, "d": _arc_path(mark)})
        case Text():
            _add_text(parent, mark)
        case Group():
            _add_group(parent, mark)


def _pair(point: PaperPoint) -> tuple[str, str]:
    return number(point.x), number(point.y)


def _arc_path(arc: Arc) -> str:
    """Path of an arc in two halves, so that no arc is ambiguous, even a full turn."""
    radius = number(arc.radius)
    angles = (arc.start, (arc.start + arc.end) / 2, arc.end)
    start, middle, end = (_at(arc, angle) for angle in angles)
    # Flags: no large arc, and turning from the x axis towards the y axis.
    return f"M{start}A{radius} {radius} 0 0 1 {middle}A{radius} {radius} 0 0 1 {end}"


def _at(arc: Arc, degrees: float) -> str:
    angle = math.radians(degrees)
    x = arc.centre.x + arc.radius * math.cos(angle)
    y = arc.centre.y + arc.radius * math.sin(angle)
    return f"{number(x)} {number(y)}"


def _add_text(parent: etree._Element, text: Text) -> None:
    x, y = _pair(text.at)
    attributes = {"x": x, "y": y, "font-size": number(font_size(text.height, text.is_bold))}
    width = text_width(text.text, text.height, text.is_bold)
    if width > 0:
        attributes |= {"textLength": number(width), "lengthAdjust": "spacingAndGlyphs"}
    if text.is_bold:
        attributes["font-weight"] = "bold"
    if text.anchor is not Anchor.START:
        attributes["text-anchor"] = text.anchor.value
    if not text.is_upright:
        attributes["transform"] = f"rotate(-90 {x} {y})"
    _add(parent, "text", attributes).text = text.text


def _add_group(parent: etree._Element, group: Group) -> None:
    name = named("group", "name", group.name)
    kind = f"{name} not-to-scale" if group.is_not_to_scale else name
    element = _add(parent, "g", {"class": kind})
    if group.title:
        _add(element, "title", {}).text = named(name, "title", group.title)
    if group.description:
        _add(element, "desc", {}).text = named(name, "description", group.description)
    for mark in group.marks:
        _add_mark(element, mark)
