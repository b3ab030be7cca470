"""Everything this project raises on purpose.

One root, then one class for each thing a caller would do differently. Every child is also
the builtin that a caller would expect, so both ``except CabinetError`` and
``except ValueError`` work.
"""

from __future__ import annotations


class CabinetError(Exception):
    """Root of all errors raised on purpose.

    Args:
        message: What is wrong and what would be right, as one sentence.
        part: Name of the part, feature or file concerned, or "" if there is none.
        value: What was found, in the house's units (mm, degrees, N, kg).
        limit: What would be right, in words or as a number.
    """

    def __init__(
        self, message: str, *, part: str = "", value: object = None, limit: object = None
    ) -> None:
        super().__init__(message)
        self.part = part
        self.value = value
        self.limit = limit

    def __str__(self) -> str:
        # A child that is also a KeyError would otherwise print its message in quotes.
        return str(self.args[0]) if self.args else ""


class SizeError(CabinetError, ValueError):
    """A number is not one that a part, a feature or a sheet can have."""


class KindError(CabinetError, TypeError):
    """Something of another kind than is asked for, such as a number where a board belongs."""


class UnknownNameError(CabinetError, LookupError):
    """A name (an edge, a part, a bay) is not one of those that exist."""


class DesignError(CabinetError, ValueError):
    """The numbers are good one by one, but no unit can be made from them together."""


class KernelError(CabinetError, RuntimeError):
    """The solid-modelling kernel failed, or gave a solid that it should not have."""


class FolderError(CabinetError, OSError):
    """The job folder cannot be written; what was there is as it was."""
