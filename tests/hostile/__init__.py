"""Requests that nobody means well: wrong values, broken encodings, rows of others, files that are none."""
