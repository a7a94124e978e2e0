"""What is due alike on several greens, so that it is done, logged or left to the weather in one go."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from growin.agronomy.amounts import in_words
from growin.agronomy.works import WORKS, stopped_by_weather
from growin.models import ProgrammeStep
from growin.queries.amounts import AsPlanned, ProductAmount, Store, as_planned
from growin.queries.line import Line


@dataclass(frozen=True)
class Together:
    """Steps of one kind with one amount, due on at least two greens."""

    lines: tuple[Line, ...]

    @property
    def step(self):
        return self.lines[0].step

    @property
    def key(self) -> str:
        return key_of(self.lines[0])

    @property
    def greens(self) -> list:
        return [one.green for one in self.lines]

    @property
    def words(self) -> str:
        """ "Fed", "Cut": the kind as the diary calls it."""
        return WORKS[self.step.kind].words

    @property
    def state(self) -> str:
        """That of the latest one."""
        return max(self.lines, key=lambda one: one.standing.is_late).standing.state

    @property
    def shares(self) -> list[str]:
        """For each product that could bring it: "Heath: Fourth 3.6 kg, Seventh 2.9 kg; 6.5 kg in all"."""
        given = defaultdict(list)
        for line in self.lines:
            for one in line.products:
                given[one.label].append((line.green, one.amount))
        return [words_of(label, pairs) for label, pairs in given.items()]

    @property
    def each(self) -> list[tuple]:
        """Each green with its amount, where there is one product for it or sand: (Seventh, "9 kg")."""
        return [(one.green, _amount_on(one)) for one in self.lines]

    @property
    def without_area(self) -> list:
        """Greens for which no amount can be worked out."""
        return [one for one in self.greens if not one.area_dm2] if WORKS[self.step.kind].takes_product else []

    @property
    def as_planned(self) -> AsPlanned | None:
        """One entry for all its greens; none where one of them wants more than a tap."""
        return _summed([one.as_planned for one in self.lines])


def as_one(steps: Sequence[ProgrammeStep], shed: Store) -> AsPlanned | None:
    """One entry for steps of several greens; none where they are not alike or one wants more than a tap."""
    if len({_alike(one) for one in steps}) > 1:
        return None
    return _summed([as_planned(one, one.programme.establishment.green.area_m2, shed) for one in steps])


def _summed(planned: Sequence[AsPlanned | None]) -> AsPlanned | None:
    if None in planned or len({len(one.products) for one in planned}) > 1:
        return None
    labels = {product.label for one in planned for product in one.products}
    if len(labels) > 1:
        return None
    total = sum(product.amount for one in planned for product in one.products)
    return AsPlanned(planned[0].details, tuple(ProductAmount(label, total) for label in labels))


def _amount_on(line: Line) -> str:
    if len(line.products) == 1:
        return in_words(line.products[0].amount, line.products[0].label.unit)
    return line.sand


def readings_alike(lines: Iterable[Line]) -> dict[str, int]:
    """Readings due on at least two greens, by their words, with the number of greens."""
    counts = Counter(one.step.what for one in lines if one.is_reading)
    return {what: count for what, count in counts.items() if count > 1}


def words_of(label, pairs) -> str:
    each = ", ".join(f"{green} {in_words(amount, label.unit)}" for green, amount in pairs)
    return f"{label.product}: {each}; {in_words(sum(amount for _, amount in pairs), label.unit)} in all"


def key_of(line: Line) -> str:
    """What is alike, as an address says it: "feed 12"."""
    return _alike(line.step)


def _alike(step: ProgrammeStep) -> str:
    return step.kind if step.amount is None else f"{step.kind} {step.amount:g}"


def together(lines: Iterable[Line]) -> tuple[Together, ...]:
    """Work that is due alike on at least two greens, in the order of the lines."""
    alike = defaultdict(dict)
    for one in lines:
        if one.is_work and not one.is_opening and not WORKS[one.step.kind].answer_only:
            alike[key_of(one)].setdefault(one.green.pk, one)
    return tuple(Together(tuple(of_green.values())) for of_green in alike.values() if len(of_green) > 1)


def weather_can_stop(lines: Iterable[Line]) -> list[Line]:
    """What frost, rain or wind can keep anybody from."""
    return [one for one in lines if one.is_work and stopped_by_weather(one.step.kind)]
