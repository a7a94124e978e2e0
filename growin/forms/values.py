"""The boxes into which a set of readings is written, shaped by its measure.

Every box works without JavaScript; a list may be pasted instead. What is written goes to the one
judge of the impossible as it stands, so that form, queue and import refuse the same.
"""

import re
from collections.abc import Callable
from decimal import Decimal

from django import forms
from django.template.loader import render_to_string

from greens import units
from greens.forms.sheet import QuantityField
from greens.validators.pasted import FIGURE, MINUS, parted
from growin.agronomy.measure import SHAPE_HITS, SHAPE_NUMBER, SHAPE_ROLLS, SHAPE_YES_NO, Measure

MOST_BOXES = 500
MORE_BOXES = 5
ROLLS_EACH_WAY = 3
WAYS = ("first", "second")
USUAL_POINTS = 25
#: Decimals of a stored value, as :mod:`growin.agronomy.reading_words` writes it.
PLACES = 3


class Boxes(forms.Widget):
    """One box a place; ``count`` of them at least, more where more is written."""

    template = "growin/readings/boxes/number.html"
    may_paste = True

    def __init__(self, measure: Measure, count: int):
        super().__init__()
        self.measure, self.count = measure, count

    def value_from_datadict(self, data, files, name):
        return [*map(plain, data.getlist(name)), *pasted(data.get(f"{name}-pasted", ""), self.measure)]

    def value_omitted_from_data(self, data, files, name):
        return False

    def render(self, name, value, attrs=None, renderer=None):
        return render_to_string(self.template, self.context(name, value or [], attrs or {}))

    def context(self, name: str, written: list, attrs: dict) -> dict:
        blank = [self.blank()] * max(self.count - len(written), 0)
        boxes = list(enumerate([*written, *blank][:MOST_BOXES], start=1))
        invalid = attrs.get("aria-invalid")
        return {"name": name, "boxes": boxes, "measure": self.measure, "widget": self, "invalid": invalid}

    def blank(self):
        return ""

    def id_for_label(self, id_, index="0"):
        return ""

    @property
    def place(self) -> str:
        """One place in the singular: "core", "joint place"."""
        return self.measure.places_words.removesuffix("s")


class YesNoBoxes(Boxes):
    """Yes or no at each place, one tap each."""

    template = "growin/readings/boxes/yes_no.html"
    may_paste = False

    def value_from_datadict(self, data, files, name):
        return [data.get(f"{name}-{n}", "") for n in numbered(data, rf"{name}-(\d+)")]


class HitsBoxes(Boxes):
    """Hits in each frame; the points of a frame are written once, or as 24/25 in the box."""

    template = "growin/readings/boxes/hits.html"

    def value_from_datadict(self, data, files, name):
        points = data.get(f"{name}-points", "").strip()
        return [frame(hits, points) for hits in super().value_from_datadict(data, files, name)]

    def context(self, name: str, written: list, attrs: dict) -> dict:
        frames = [one for one in written if isinstance(one, dict)]
        points = str(frames[0]["points"]) if frames else str(USUAL_POINTS)
        hits = [_hits_of(one, points) for one in written]
        return super().context(name, hits, attrs) | {"points": points}


class RollsBoxes(Boxes):
    """Three balls one way and three back, on each level spot."""

    template = "growin/readings/boxes/rolls.html"
    may_paste = False

    def value_from_datadict(self, data, files, name):
        spots = numbered(data, rf"{name}-(\d+)-(?:first|second)")
        return [spot(data, f"{name}-{n}") for n in spots]

    def blank(self):
        return {way: [""] * ROLLS_EACH_WAY for way in WAYS}

    def context(self, name: str, written: list, attrs: dict) -> dict:
        filled = [self.padded(one) for one in written]
        return super().context(name, filled, attrs) | {"blank": self.blank()}

    @staticmethod
    def padded(one) -> dict:
        rolls = one if isinstance(one, dict) else {way: [] for way in WAYS}
        return {way: [*rolls[way], *[""] * (ROLLS_EACH_WAY - len(rolls[way]))] for way in WAYS}


BOXES = {SHAPE_NUMBER: Boxes, SHAPE_YES_NO: YesNoBoxes, SHAPE_HITS: HitsBoxes, SHAPE_ROLLS: RollsBoxes}


class ValuesField(forms.Field):
    """Single values of one measure, at least one, as they were written."""

    def __init__(self, measure: Measure, count: int):
        label = units.label(measure.label, measure.unit)
        super().__init__(label=label, widget=BOXES[measure.shape](measure, count))
        self.measure = measure

    def in_club_units(self, values):
        return [each(one, self._written) for one in values] if values else values

    def clean(self, value):
        """As stored figures; what is no figure stays as it is, for the judge to refuse."""
        written = [each(one, self._stored) for one in value or [] if not nothing(one)]
        if not written:
            raise forms.ValidationError("Nothing is written yet: at least one value is needed.")
        return written

    def _written(self, figure: str) -> str:
        return units.written(figure, self.measure.unit, PLACES)

    def _stored(self, typed: str) -> str:
        if units.quantity(self.measure.unit) is None or not FIGURE.fullmatch(typed):
            return typed
        return f"{units.stored(Decimal(typed), self.measure.unit, PLACES):f}"


def each(value, convert: Callable[[str], str]):
    """A value with its figures converted: a number, or rolls both ways; answers and hits as they are."""
    if isinstance(value, str):
        return convert(value)
    if isinstance(value, dict) and "first" in value:
        return {way: [convert(one) if one else one for one in value[way]] for way in WAYS}
    return value


def plain(text: str) -> str:
    """A figure with a point and a plain minus, whatever was typed."""
    return QuantityField.with_point(text.strip().translate(MINUS))


def pasted(text: str, measure: Measure) -> list[str]:
    """The pieces of a pasted list; frames keep their 24/25."""
    if measure.shape == SHAPE_HITS:
        return [piece for piece in re.split(r"[\s;,]+", text.strip()) if piece]
    return parted(text.translate(MINUS), 0 if measure.whole else 3)


def numbered(data, pattern: str) -> range:
    """The numbers of the boxes up to the last that was sent."""
    found = (re.fullmatch(pattern, key) for key in data)
    last = max((int(one[1]) for one in found if one and len(one[1]) <= 3), default=0)
    return range(1, min(last, MOST_BOXES) + 1)


def frame(hits: str, points: str) -> dict | str:
    if not hits:
        return ""
    within, _, of = hits.partition("/")
    return {"hits": within.strip(), "points": of.strip() or points}


def _hits_of(one, points: str) -> str:
    if not isinstance(one, dict):
        return one
    same = str(one["points"]) == points
    return f"{one['hits']}" if same else f"{one['hits']}/{one['points']}"


def spot(data, name: str) -> dict:
    return {way: [plain(one) for one in data.getlist(f"{name}-{way}")] for way in WAYS}


def nothing(one) -> bool:
    if isinstance(one, dict) and "first" in one:
        return not any(roll for way in WAYS for roll in one[way])
    return one in (None, "")
