"""Benchmarks: ratios to the kernel's own work, never timed tests."""
