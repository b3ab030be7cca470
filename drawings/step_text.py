r"""The text of a STEP file brought into the form that depends on the model alone.

What the kernel writes differs from run to run in three ways: it numbers the places of an
assembly through the whole process, breaks lines at a length that these numbers change, and
lists the colours in the order of addresses in memory. Here places count from 1, each
statement is one line, and colours are listed in the order of what they colour.

The kernel also writes UTF-8, which the edition named in the header (2;1) does not know.

Source: ISO 10303-21 (statements, strings, \X2\ and \X4\ in strings).
"""

from __future__ import annotations

import itertools
import re

_STRING = re.compile(rb"'(?:[^']|'')*'")
_OCCURRENCE = re.compile(rb"(NEXT_ASSEMBLY_USAGE_OCCURRENCE\()'[0-9]+'")
_STATEMENT = re.compile(rb"#([0-9]+) = (.*);")
_REFERENCE = re.compile(rb"#([0-9]+)")
_FIRST_STYLE = b"MECHANICAL_DESIGN_GEOMETRIC_PRESENTATION_REPRESENTATION("


def settled(raw: bytes) -> bytes:
    """The same model as the kernel's file ``raw``, as ASCII and in the settled form."""
    # A quote within a string is doubled, so between quotes text and strings take turns.
    pieces = raw.split(b"'")
    pieces[1::2] = [_plain(text) if text else text for text in pieces[1::2]]
    one_line = re.sub(rb"(?<!;)\r?\n *", b"", b"'".join(pieces))
    places = itertools.count(1)
    counted = _OCCURRENCE.sub(lambda found: b"%s'%d'" % (found[1], next(places)), one_line)
    return b"\n".join(_with_ordered_styles(counted.split(b"\n")))


def _plain(text: bytes) -> bytes:
    """The inside of a string on one line, as ASCII."""
    whole = text.replace(b"\r", b"").replace(b"\n", b"")
    if whole.isascii():
        return whole
    return re.sub("[^\x00-\x7f]+", _escaped, whole.decode("utf-8")).encode("ascii")


def _escaped(found: re.Match[str]) -> str:
    r"""Characters beyond ASCII as hexadecimal: \X2\ with 16 bits each, \X4\ with 32."""
    if all(ord(letter) <= 0xFFFF for letter in found[0]):
        return "\\X2\\" + "".join(f"{ord(letter):04X}" for letter in found[0]) + "\\X0\\"
    return "\\X4\\" + "".join(f"{ord(letter):08X}" for letter in found[0]) + "\\X0\\"


def _with_ordered_styles(lines: list[bytes]) -> list[bytes]:
    """The lines with the styles, which end the file, in the order of what they belong to.

    Statements are numbered anew from the first style on, each before those that it refers to.
    """
    begin = next((k for k, line in enumerate(lines) if _FIRST_STYLE in line), len(lines))
    found = list(itertools.takewhile(bool, (_STATEMENT.fullmatch(line) for line in lines[begin:])))
    styles = {int(match[1]): match[2] for match in found if match is not None}
    if not styles:
        return lines
    referred = {number for text in styles.values() for number in _references(text)}
    roots = sorted(
        (number for number in styles if number not in referred),
        # What a style refers to outside the styles, a product's own context, tells it apart.
        key=lambda number: (
            [other for other in _references(styles[number]) if other not in styles],
            _REFERENCE.sub(b"#", styles[number]),
        ),
    )
    order: dict[int, int] = {}
    numbers = itertools.count(min(styles))
    for root in roots:
        waiting = [root]
        while waiting:
            number = waiting.pop()
            if number in styles and number not in order:
                order[number] = next(numbers)
                waiting += reversed(_references(styles[number]))
    renewed = [
        b"#%d = %s;" % (order[number], _REFERENCE.sub(lambda m: _renumbered(m, order), text))
        for number, text in sorted(styles.items(), key=lambda pair: order[pair[0]])
    ]
    return [*lines[:begin], *renewed, *lines[begin + len(styles) :]]


def _references(statement: bytes) -> list[int]:
    return [int(match[1]) for match in _REFERENCE.finditer(_STRING.sub(b"''", statement))]


def _renumbered(reference: re.Match[bytes], order: dict[int, int]) -> bytes:
    number = int(reference[1])
    return b"#%d" % order.get(number, number)
