"""How templates look."""

from __future__ import annotations

from dataclasses import replace

from drawings.style import A4_STYLE, Style

TEMPLATE_STYLE: Style = A4_STYLE
"""The look of templates: that of A4 sheets."""

LARGE_WORDS: Style = replace(A4_STYLE, name="large words", note_height=3.5, heading_height=5.0)
"""The same with larger notes and tables, read at arm's length; used where they find room."""

LOUD_HEIGHT = 5.0
"""Lettering of what must not be missed on the bench: which end, which screw, which sheet, mm."""
