"""Numbers of rows, as buttons send them."""

LONGEST = 19  # the longest that a database counts to has 19 digits


def whole_number(text: str) -> int | None:
    """A number of a row; None for anything that can be none."""
    return int(text) if text.isascii() and text.isdecimal() and len(text) < LONGEST else None
