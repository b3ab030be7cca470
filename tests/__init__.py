"""Tests; the tree mirrors that of the packages."""
