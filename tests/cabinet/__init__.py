"""Tests of the model, one file for each of its own."""
