"""One profile for all generated inputs."""

from __future__ import annotations

import os

from hypothesis import HealthCheck, settings

settings.register_profile(
    "workshop",
    deadline=None,  # the kernel's first call is slow
    derandomize=bool(os.environ.get("CI")),  # the same examples on every run of the CI
    print_blob=True,  # a failing example can be pasted and run again
    suppress_health_check=[HealthCheck.too_slow],  # solids are slow to make, not to draw
)
settings.load_profile("workshop")
