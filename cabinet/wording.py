"""Names in a sentence and in a title."""

from __future__ import annotations

from collections.abc import Sequence


def listed(names: Sequence[str]) -> str:
    """Names as one writes them: ``a``, ``a and b``, ``a, b and c``; ``a, x; b, y; and c, z``."""
    if len(names) < 2:
        return "".join(names)
    # A name with a comma of its own would read as two.
    has_commas = len(names) > 2 and any("," in name for name in names)
    between, last = ("; ", "; and ") if has_commas else (", ", " and ")
    return f"{between.join(names[:-1])}{last}{names[-1]}"


def capital(text: str) -> str:
    """A text with a capital first letter, as a title has it; the rest as it is."""
    return text[:1].upper() + text[1:]
