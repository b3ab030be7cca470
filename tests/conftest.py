"""One profile for all generated inputs; and no copies of a process that runs tests."""

from __future__ import annotations

import os
from collections.abc import Iterator

import pytest
from hypothesis import HealthCheck, settings

from drawings import second_process

settings.register_profile(
    "workshop",
    deadline=None,  # the kernel's first call is slow
    derandomize=bool(os.environ.get("CI")),  # the same examples on every run of the CI
    print_blob=True,  # a failing example can be pasted and run again
    suppress_health_check=[HealthCheck.too_slow],  # solids are slow to make, not to draw
)
settings.load_profile("workshop")


@pytest.fixture(scope="session", autouse=True)
def in_one_process() -> Iterator[None]:
    """A worker of the runner has a thread that Python's own list does not tell of.

    Copying such a process is not sound. Scripts that tests run in processes of their own make
    copies as a user's do, and ``test_second_process`` asks for them.
    """
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(second_process, "_can_copy", lambda: False)
        yield
