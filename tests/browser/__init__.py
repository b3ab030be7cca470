"""Tests that need a real browser."""
