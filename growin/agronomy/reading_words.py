"""Single values of a reading as people read and write them."""

from collections.abc import Sequence

from growin.agronomy.measure import SHAPE_HITS, SHAPE_ROLLS, SHAPE_YES_NO, Measure
from growin.agronomy.plain_words import amount


def shown_value(measure: Measure, value) -> str:
    """One value in words: "52 mm", "yes", "24 of 25 points", "2.9 m, 3 m one way, 2.8 m back"."""
    if measure.shape == SHAPE_YES_NO:
        return "yes" if value else "no"
    if measure.shape == SHAPE_HITS:
        return f"{value['hits']} of {value['points']} points"
    if measure.shape == SHAPE_ROLLS:
        ways = (_metres(value["first"], measure.unit), _metres(value["second"], measure.unit))
        return "{} one way, {} back".format(*ways)
    return amount(value, measure.unit, places=2)


def _metres(rolls: Sequence[float], unit: str) -> str:
    return ", ".join(amount(one, unit, places=2) for one in rolls)


def written_value(measure: Measure, value):
    """One value as it is typed into the boxes of a form again."""
    if measure.shape == SHAPE_YES_NO:
        return "yes" if value else "no"
    if measure.shape == SHAPE_HITS:
        return f"{value['hits']}/{value['points']}"
    if measure.shape == SHAPE_ROLLS:
        return {way: [amount(one, places=3) for one in value[way]] for way in ("first", "second")}
    return amount(value, places=3)
