"""How templates look."""

from __future__ import annotations

from drawings.style import A4_STYLE, Style

TEMPLATE_STYLE: Style = A4_STYLE
"""The look of templates: that of A4 sheets."""

LOUD_HEIGHT = 5.0
"""Lettering of what must not be missed on the bench: which end, which screw, which sheet, mm."""
