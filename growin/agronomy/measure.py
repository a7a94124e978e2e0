"""What one measure is: the shape of its values, its limits and how it is taken."""

from dataclasses import dataclass

from growin.agronomy.defaults import COMMON_PRACTICE, OUR_JUDGEMENT
from growin.agronomy.fields import CHOICE, NUMBER, TEXT, Field

SHAPE_NUMBER, SHAPE_YES_NO, SHAPE_HITS, SHAPE_ROLLS = "number", "yesno", "hits", "rolls"


@dataclass(frozen=True)
class Measure:
    """One measure.

    ``shape`` is ``number``, ``yesno``, ``hits`` ({hits, points} for each frame) or ``rolls``
    ({first, second}: lists of metres one way and back). ``low``..``high`` in ``unit`` is what
    can be. ``usual_count`` values are usually taken, each at one of ``places_words``.
    ``needs_turf`` measures cannot be taken before laying or sowing. Where ``largest_decides``,
    it is the worst place that matters, not the mean.
    """

    key: str
    words: str
    shape: str
    unit: str
    low: float | None
    high: float | None
    usual_count: int
    places_words: str
    how_to: str
    protocol: tuple[Field, ...] = ()
    needs_turf: bool = True
    whole: bool = False
    largest_decides: bool = False
    mark: str = OUR_JUDGEMENT
    source: str = ""

    @property
    def label(self) -> str:
        """Words and unit: "White roots, mm"."""
        return f"{self.words}, {self.unit}" if self.unit else self.words


def millimetres(key, words, high, usual_count, places_words, how_to, **more) -> Measure:
    """A measure in millimetres from 0 to ``high``."""
    return Measure(key, words, SHAPE_NUMBER, "mm", 0, high, usual_count, places_words, how_to, **more)


def percent(key, words, usual_count, places_words, how_to, **more) -> Measure:
    """A measure in per cent."""
    return Measure(key, words, SHAPE_NUMBER, "%", 0, 100, usual_count, places_words, how_to, **more)


def in_unit(key, words, unit, low, high, usual_count, places_words, how_to, **more) -> Measure:
    """A measure in any other unit from ``low`` to ``high``."""
    return Measure(key, words, SHAPE_NUMBER, unit, low, high, usual_count, places_words, how_to, **more)


def yes_no(key, words, usual_count, places_words, how_to, **more) -> Measure:
    """A question answered yes or no at each place."""
    return Measure(key, words, SHAPE_YES_NO, "", None, None, usual_count, places_words, how_to, **more)


PLACE = Field("place", "Where on the green", TEXT)
METHOD = Field("method", "Method", TEXT)
EDGE_ALLOWED = Field(
    "contour", "Design contour allowed for", CHOICE, choices=(("yes", "yes"), ("level", "level place"))
)
LAYER = Field(
    "layer",
    "Layer to be seen at the face",
    CHOICE,
    choices=(("none", "none"), ("thin", "thin"), ("black", "black or sour")),
)
DEPTH_FROM = Field("depth_from_mm", "Layer from", NUMBER, "mm", 0, 400, 10)
DEPTH_TO = Field("depth_to_mm", "Layer to", NUMBER, "mm", 0, 400, 10)
HAMMER = (
    Field("hammer_kg", "Mass of the hammer", NUMBER, "kg", 0.1, 10, 0.25),
    Field("drop_height_m", "Height of the drop", NUMBER, "m", 0.05, 2, 0.05),
    Field("drop_number", "Which drop is read", NUMBER, "", 1, 10, 1, whole=True),
)
ROD = Field("rod_length_mm", "Length of the rods", NUMBER, "mm", 10, 300, 5)
PRACTICE = {"mark": COMMON_PRACTICE}
