"""Marks to SVG in true millimetres. It decides nothing; the only file that uses svgwrite.

svgwrite writes floats as Python prints them and makes ids from a counter of the whole
process, so every number is handed over as a string from ``drawings.number`` and no element
gets an id.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from xml.etree import ElementTree as ET

import svgwrite
from svgwrite.base import BaseElement

from cabinet.quantity import named, positive
from drawings.lettering import FAMILY, font_size, text_width
from drawings.marks import Anchor, Arc, Circle, Group, Ink, Line, Mark, PaperPoint, Polyline, Text
from drawings.number import number
from drawings.style import Style


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
    drawing = svgwrite.Drawing(
        size=(f"{number(width)}mm", f"{number(height)}mm"),
        viewBox=f"0 0 {number(width)} {number(height)}",
        debug=False,
    )
    drawing.set_desc(title=named("sheet", "title", title))
    drawing.defs.add(drawing.style(_style_sheet(style)))
    paper = (number(width), number(height))
    drawing.add(drawing.rect(insert=("0", "0"), size=paper, class_="paper"))
    for mark in marks:
        drawing.add(_element(drawing, mark))
    root = drawing.get_xml()
    ET.indent(root, space="")
    text = ET.tostring(root, encoding="unicode")
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{text}\n'


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


def _element(drawing: svgwrite.Drawing, mark: Mark) -> BaseElement:
    match mark:
        case Line():
            start, end = _pair(mark.start), _pair(mark.end)
            return drawing.line(start, end, class_=mark.ink.value)
        case Polyline():
            points = [_pair(point) for point in mark.points]
            shape = drawing.polygon if mark.closed else drawing.polyline
            return shape(points, class_=mark.ink.value)
        case Circle():
            radius = number(mark.radius)
            return drawing.circle(_pair(mark.centre), radius, class_=mark.ink.value)
        case Arc():
            return drawing.path(_arc_path(mark), class_=mark.ink.value)
        case Text():
            return _text(drawing, mark)
        case Group():
            return _group(drawing, mark)


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


def _text(drawing: svgwrite.Drawing, text: Text) -> BaseElement:
    x, y = _pair(text.at)
    attributes = {
        "x": [x],
        "y": [y],
        "font_size": number(font_size(text.height, text.is_bold)),
    }
    width = text_width(text.text, text.height, text.is_bold)
    if width > 0:
        attributes |= {"textLength": number(width), "lengthAdjust": "spacingAndGlyphs"}
    if text.is_bold:
        attributes["font_weight"] = "bold"
    if text.anchor is not Anchor.START:
        attributes["text_anchor"] = text.anchor.value
    if not text.is_upright:
        attributes["transform"] = f"rotate(-90 {x} {y})"
    return drawing.text(text.text, **attributes)


def _group(drawing: svgwrite.Drawing, group: Group) -> BaseElement:
    name = named("group", "name", group.name)
    element = drawing.g(class_=f"{name} not-to-scale" if group.is_not_to_scale else name)
    element.set_desc(
        title=named(name, "title", group.title) if group.title else None,
        desc=named(name, "description", group.description) if group.description else None,
    )
    for mark in group.marks:
        element.add(_element(drawing, mark))
    return element
