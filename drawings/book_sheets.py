"""Sheets inside the book: the same SVG, made safe to stand beside others on one page.

Each sheet file has its own style sheet with short class names. On one page they would collide,
with each other and with the page: equal style sheets are kept once and apply only inside a
wrapper. Ids would collide as well, so a sheet has none.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from lxml import etree

from cabinet.errors import KernelError
from drawings.svg import NAMESPACE

_RULE = re.compile(r"([^{}]+)\{([^{}]*)\}")


@dataclass(frozen=True, slots=True)
class BoundSheet:
    """One sheet that may stand beside others on a page, but for its style rules.

    Attributes:
        rules: Its style rules as they are.
        markup: The SVG element without them.
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
    """A sheet as it may stand beside others on a page.

    Args:
        number: Number of the sheet.
        label: What it is, in words, for those who hear the page.
        svg: The SVG document.

    Raises:
        KernelError: the document is no SVG, or something in it has an id.
    """
    root = _parsed(number, svg)
    rules = _taken_styles(root)
    root.set("role", "img")
    root.set("aria-label", label)
    return BoundSheet(rules, etree.tostring(root, encoding="unicode"))


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


def _parsed(number: int, text: str) -> etree._Element:
    try:
        root = etree.fromstring(text.encode("utf-8"))
    except etree.XMLSyntaxError as error:
        raise _not_fit(number, f"it is no XML, {error}") from error
    if root.tag != f"{{{NAMESPACE}}}svg":
        raise _not_fit(number, f"its root is {root.tag}")
    if ids := root.xpath("//@id"):
        raise _not_fit(number, f"it has the id {ids[0]!r}")
    return root


def _not_fit(number: int, why: str) -> KernelError:
    return KernelError(
        f"job book: sheet {number} cannot stand on its page ({why}); this is a fault of the "
        "program, please report it",
        part=f"sheet {number}",
        limit="an SVG document without ids",
    )


def _taken_styles(root: etree._Element) -> str:
    """Take the style sheets out of a document; their text."""
    taken = []
    for style in list(root.iter(f"{{{NAMESPACE}}}style")):
        taken.append("".join(style.itertext()).strip())
        style.getparent().remove(style)
    return "\n".join(taken)


def _scoped(rules: str, look: str) -> str:
    """Rules that apply inside a wrapper of class ``look`` only."""
    lines = []
    for selectors, body in _RULE.findall(rules):
        scoped = ",".join(f".{look} {selector.strip()}" for selector in selectors.split(","))
        lines.append(f"{scoped}{{{body}}}")
    return "\n".join(lines)
