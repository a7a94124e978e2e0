"""What the buttons under a notice send."""

from collections.abc import Mapping

LONGEST_NUMBER = 19  # the longest that a database counts to has 19 digits
#: For how many days a notice may be put aside, and the words for it.
ASIDE = ((1, "until tomorrow"), (3, "for three days"), (7, "for a week"))


def asked_number(sent: Mapping) -> int | None:
    """The number of a notice; None for anything that is none."""
    number = sent.get("notice", "")
    return int(number) if number.isascii() and number.isdecimal() and len(number) < LONGEST_NUMBER else None


def asked_days(sent: Mapping) -> int:
    """For how many days; until tomorrow unless one of the others was chosen."""
    offered = {str(days): days for days, _ in ASIDE}
    return offered.get(sent.get("days", ""), 1)
