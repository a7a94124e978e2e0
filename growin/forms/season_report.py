"""Of which season a report is asked for."""

from collections.abc import Mapping


def asked_year(sent: Mapping) -> int | None:
    """The year in which the season began; None where the address asks for none that can be."""
    year = sent.get("year", "")
    return int(year) if year.isascii() and year.isdigit() and len(year) == 4 else None
