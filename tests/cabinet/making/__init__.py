"""Tests of what the workshop needs to make the unit."""
