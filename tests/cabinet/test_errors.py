"""Errors: one root, each also the builtin that a caller expects."""

from __future__ import annotations

import inspect

import pytest

from cabinet import errors
from cabinet.errors import (
    CabinetError,
    DesignError,
    FolderError,
    KernelError,
    KindError,
    SizeError,
    UnknownNameError,
)
from cabinet.findings import FindingsError


@pytest.mark.parametrize(
    ("kind", "builtin"),
    [
        (SizeError, ValueError),
        (KindError, TypeError),
        (UnknownNameError, LookupError),
        (DesignError, ValueError),
        (KernelError, RuntimeError),
        (FolderError, OSError),
        (FindingsError, ValueError),
    ],
)
def test_children_are_builtins_too(kind: type[CabinetError], builtin: type[Exception]) -> None:
    """Both the root and the builtin catch it."""
    assert issubclass(kind, CabinetError)
    assert issubclass(kind, builtin)


def test_all_errors_have_the_root() -> None:
    """Nothing in the file is outside the family."""
    kinds = [kind for _, kind in inspect.getmembers(errors, inspect.isclass)]
    assert len(kinds) == 7
    assert all(issubclass(kind, CabinetError) for kind in kinds)


@pytest.mark.parametrize("kind", [SizeError, UnknownNameError, DesignError, KernelError])
def test_fields_are_kept(kind: type[CabinetError]) -> None:
    """Part, value and limit are there for a program; the message is plain for people."""
    error = kind("base: no good", part="base", value=17.6, limit=(1, 2))
    assert (error.part, error.value, error.limit) == ("base", 17.6, (1, 2))
    assert str(error) == "base: no good"


def test_a_file_error_prints_its_message_alone() -> None:
    """An OSError with one argument would print as such; nothing else is added."""
    assert str(FolderError("folder is in use")) == "folder is in use"
