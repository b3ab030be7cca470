"""Tests of the unit on its wall and in use."""
