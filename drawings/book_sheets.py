"""Sheets inside the book: the same SVG, made safe to stand beside others on one page.

Each sheet file has its own style sheet with short class names and may have ids. On one page
they would collide, with each other and with the page: equal style sheets are kept once and
apply only inside a wrapper, and every id and class-free rule is bound to its sheet.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from xml.etree import ElementTree as ET

from cabinet.errors import KernelError

_SVG = "http://www.w3.org/2000/svg"
_LINK = "http://www.w3.org/1999/xlink"
_HREFS = ("href", f"{{{_LINK}}}href")
# Attributes whose value is one id or several.
_ID_LISTS = ("aria-labelledby", "aria-describedby")
_URL = re.compile(r"url\(\s*['\"]?#([^)'\"]+)['\"]?\s*\)")
_RULE = re.compile(r"([^{}]+)\{([^{}]*)\}")


@dataclass(frozen=True, slots=True)
class BoundSheet:
    """One sheet that may stand beside others on a page, but for its style rules.

    Attributes:
        rules: Its style rules as they are.
        markup: The SVG element without them, its ids its own on the whole page.
    """

    rules: str
    markup: str


@dataclass(frozen=True, slots=True)
class InlinedSheet:
    """One sheet for the page.

    Attributes:
        look: Class of its wrapper, shared by sheets of the same style sheet.
        markup: The SVG element, to be written as it is.
    """

    look: str
    markup: str


@dataclass(frozen=True, slots=True)
class InlinedSheets:
    """All sheets for the page by number, and the style rules that they share."""

    sheets: Mapping[int, InlinedSheet]
    style: str


def bound_sheet(number: int, label: str, svg: str) -> BoundSheet:
    """A sheet with its ids made unique on the page.

    Args:
        number: Number of the sheet.
        label: What it is, in words, for those who hear the page.
        svg: The SVG document.

    Raises:
        KernelError: the document is no SVG.
    """
    root = _parsed(number, svg)
    rules = _taken_styles(root)
    _bind_ids(root, f"sheet-{number}-")
    root.set("role", "img")
    root.set("aria-label", label)
    return BoundSheet(rules, ET.tostring(root, encoding="unicode"))


def inlined(bound: Mapping[int, BoundSheet]) -> InlinedSheets:
    """Sheets by their numbers, the style rules of each kind kept once and scoped."""
    looks: dict[str, str] = {}
    done: dict[int, InlinedSheet] = {}
    for number in sorted(bound):
        sheet = bound[number]
        look = looks.setdefault(sheet.rules, f"jb-ink-{len(looks) + 1}")
        done[number] = InlinedSheet(look, sheet.markup)
    style = "\n".join(_scoped(rules, look) for rules, look in looks.items())
    return InlinedSheets(done, style)


def _parsed(number: int, text: str) -> ET.Element:
    # Without this, every element would come out with a prefix, and a page does not know it.
    ET.register_namespace("", _SVG)
    ET.register_namespace("xlink", _LINK)
    try:
        root = ET.fromstring(text)  # noqa: S314 - our own sheets, written a moment ago
    except ET.ParseError as error:
        raise _not_svg(number, str(error)) from error
    if root.tag != f"{{{_SVG}}}svg":
        raise _not_svg(number, f"its root is {root.tag}")
    return root


def _not_svg(number: int, why: str) -> KernelError:
    return KernelError(
        f"job book: sheet {number} is no SVG document ({why}); this is a fault of the program, "
        "please report it",
        part=f"sheet {number}",
        limit="an SVG document",
    )


def _taken_styles(root: ET.Element) -> str:
    """Take the style sheets out of a document; their text."""
    taken = []
    for parent in root.iter():
        for child in list(parent):
            if child.tag == f"{{{_SVG}}}style":
                taken.append("".join(child.itertext()).strip())
                parent.remove(child)
    return "\n".join(taken)


def _scoped(rules: str, look: str) -> str:
    """Rules that apply inside a wrapper of class ``look`` only."""
    lines = []
    for selectors, body in _RULE.findall(rules):
        scoped = ",".join(f".{look} {selector.strip()}" for selector in selectors.split(","))
        lines.append(f"{scoped}{{{body}}}")
    return "\n".join(lines)


def _bind_ids(root: ET.Element, prefix: str) -> None:
    """Give every id of a document a prefix, there and wherever it is named."""
    for element in root.iter():
        for name, value in element.attrib.items():
            if name == "id":
                element.set(name, prefix + value)
            elif name in _HREFS and value.startswith("#"):
                element.set(name, f"#{prefix}{value[1:]}")
            elif name in _ID_LISTS:
                element.set(name, " ".join(prefix + one for one in value.split()))
            elif "url(" in value:
                element.set(name, _URL.sub(rf"url(#{prefix}\1)", value))
