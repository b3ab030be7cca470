"""Name, version and place of the schema of job.json."""

from __future__ import annotations

from pathlib import Path

SCHEMA = "cabinet-office-job"
"""Name of the schema."""

VERSION = 4
"""Its version; a file of another version is not read back."""

SCHEMA_FILE = Path(__file__).parent / "schema" / "job.schema.json"
"""Describes job.json."""
