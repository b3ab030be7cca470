"""Tests of the wall and of hanging."""
