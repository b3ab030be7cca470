"""Tests of ``drawings``."""
