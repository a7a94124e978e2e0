"""What the buttons under a notice send."""

from collections.abc import Mapping

from greens.validators.numbers import whole_number

#: For how many days a notice may be put aside, and the words for it.
ASIDE = ((1, "until tomorrow"), (3, "for three days"), (7, "for a week"))


def asked_number(sent: Mapping) -> int | None:
    """The number of a notice; None for anything that is none."""
    return whole_number(sent.get("notice", ""))


def asked_days(sent: Mapping) -> int:
    """For how many days; until tomorrow unless one of the others was chosen."""
    offered = {str(days): days for days, _ in ASIDE}
    return offered.get(sent.get("days", ""), 1)
