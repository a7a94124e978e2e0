"""Cells of a CSV that a spreadsheet would take for a formula, written so that it shows them as text.

A text beginning with = + - @, a tab or a return gets an apostrophe before it, and loses it again when the
file comes back. Figures are figures and stay bare.
"""

import re

BEGINS_A_FORMULA = re.compile(r"'*[=+\-@\t\r]")
IS_GUARDED = re.compile(r"'+[=+\-@\t\r]")


def guarded(text: str) -> str:
    return f"'{text}" if BEGINS_A_FORMULA.match(text) else text


def unguarded(text: str) -> str:
    return text[1:] if IS_GUARDED.match(text) else text
