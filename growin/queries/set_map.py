"""Where on the green the values of one set were taken, and which places are weak."""

from collections.abc import Mapping
from dataclasses import dataclass

from greens.models import ReadingSet
from greens.queries import area
from growin.agronomy.measure import Measure
from growin.agronomy.outline import Outline, Place
from growin.agronomy.plain_words import amount, counted, singular
from growin.agronomy.reading_words import shown_value
from growin.agronomy.rules import MET, NOT_MET
from growin.agronomy.settle import state_of_value
from growin.evidence.due import rules_of


@dataclass(frozen=True)
class Mark:
    """One value at its place; ``state`` is met, not met, or empty where no rule looks at single places."""

    number: int
    place_m: Place | None
    words: str
    state: str

    @property
    def where(self) -> str:
        """The place in words: "3 m right, 2.5 m down"."""
        if self.place_m is None:
            return "not said"
        x, y = self.place_m
        across = f"{amount(abs(x), 'm')} {'right' if x >= 0 else 'left'}"
        return f"{across}, {amount(abs(y), 'm')} {'up' if y >= 0 else 'down'}"


@dataclass(frozen=True)
class SetMap:
    """What the picture draws; ``bearing_deg`` is where the sheet points up, None while not known."""

    measure: Measure
    outline: Outline
    marks: tuple[Mark, ...]
    bearing_deg: int | None

    @property
    def placed(self) -> list[Mark]:
        return [one for one in self.marks if one.place_m is not None]

    @property
    def in_words(self) -> str:
        """The picture for those who cannot see it."""
        head = f"{self.measure.words} at {counted(len(self.placed), 'places')} of the green"
        weak = [f"{one.words} at {one.where}" for one in self.placed if one.state == NOT_MET]
        if weak:
            return f"{head}. Not met: {'; '.join(weak)}."
        return f"{head}. {'All met.' if self.is_judged else 'No rule looks at single places.'}"

    @property
    def is_judged(self) -> bool:
        return any(one.state in (MET, NOT_MET) for one in self.marks)

    @property
    def place(self) -> str:
        """One place in the singular: "core"."""
        return singular(self.measure.places_words).capitalize()


def set_map(reading_set: ReadingSet, in_force: Mapping[str, float]) -> SetMap | None:
    """The map of a set by the settings in force; None where no place or no area is known."""
    outline = area.outline(reading_set.green) if any(reading_set.places) else None
    if outline is None:
        return None
    kind, green = reading_set.kind, reading_set.green
    rules = rules_of(reading_set.establishment, kind, in_force)
    pairs = zip(reading_set.values, reading_set.places, strict=True)
    marks = tuple(
        Mark(number, place and tuple(place), shown_value(kind, value), state_of_value(rules, value))
        for number, (value, place) in enumerate(pairs, start=1)
    )
    return SetMap(kind, outline, marks, green.bearing_deg)
