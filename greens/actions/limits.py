"""What the limits of the trade say of an entry: kept beside it as sentences, never a reason to refuse."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date

from greens.actions.ledger import element_mg_m2
from greens.actions.possible import Line, Said
from greens.choices import ProductKind
from greens.models import Establishment, Green, Label
from greens.queries import nutrients, sands, settings, weather
from greens.queries.grounds import Grounds
from growin.agronomy import dressing, feeding, heights
from growin.agronomy.closed_time import refusal
from growin.agronomy.label import nitrogen_release
from growin.agronomy.nutrition import MG_M2_PER_KG_HA
from growin.agronomy.plain_words import amount
from growin.agronomy.season import in_winter, year_start

FORM_OF_FEED = {"foliar": feeding.FOLIAR, "drench": feeding.GRANULAR, "granular": feeding.GRANULAR}
#: A small dose that was given is no excess; that it is hard to spread concerns the plan only.
NO_GATHERING = {"feeding.dose.gather_n_kg_ha": 0}


class AsKept:
    """The grounds of one entry, asked for when they are wanted; ``but_entry`` is the entry itself."""

    def __init__(self, said: Said, but_entry: int | None = None):
        self.club, self.but_entry = said.club, but_entry
        greens = [green.pk for green in said.greens]
        self._constants = settings.in_force_by_green(said.club, said.on, greens)

    def constants(self, green_pk: int, on: date) -> Mapping[str, float]:
        return self._constants[green_pk]

    def soil_c(self, on: date) -> float | None:
        day = weather.day(self.club, on)
        measured = day is not None and not day.is_estimated and day.soil_100_c is not None
        return float(day.soil_100_c) if measured else None

    def sand_kg_m2(self, greens: Sequence[Green], since: date, until: date) -> dict[int, float]:
        return sands.kg_m2(greens, since, until, self.but_entry)

    def nutrient_mg_m2(self, green: Green, element: str, since: date, until: date) -> int:
        return nutrients.sum_mg_m2(green, element, since, until, self.but_entry)


def over_limit(said: Said, but_entry: int | None = None, grounds: Grounds | None = None) -> list[str]:
    """Sentences that are true of it on that day; a sentence of one green among several names it."""
    known = grounds or AsKept(said, but_entry)
    sanded = sand_so_far(said, known)
    by_green = {
        line.green: list(judge(said, line, known, sanded.get(line.green.pk, 0))) for line in said.lines
    }
    return said_once(by_green)


def judge(said: Said, line: Line, known: AsKept | Grounds, sand_kg_m2: float) -> Iterator[str]:
    constants = known.constants(line.green.pk, said.on)
    if said.kind == "cut" and line.establishment:
        yield from judge_cut(said.details["height_mm"], line.establishment, constants)
    if not said.products:
        return
    if said.work.takes_product == "feed":
        yield from judge_feed(said, constants, known.soil_c(said.on))
        yield from near_water(line.green, constants)
        yield from by_the_rules(said, line.green, known)
    if said.work.takes_product == "sand":
        yield from judge_sand(said, constants, sand_kg_m2)


def judge_cut(height_mm: float, rebuilt: Establishment, constants: Mapping[str, float]) -> list[str]:
    """Under the floor of the grass; a club that set a lower summer height has meant it."""
    summer = rebuilt.summer_height_mm
    if summer is not None and height_mm >= float(summer):
        return []
    return heights.judge_height(height_mm, None, rebuilt.species, constants)


def judge_feed(said: Said, constants: Mapping[str, float], soil_c: float | None) -> tuple[str, ...]:
    n_kg_ha = element_mg_m2(said.products, said.area_dm2, "N") / MG_M2_PER_KG_HA
    form = form_of(said)
    return feeding.judge_dose(n_kg_ha, form, {**constants, **NO_GATHERING}, soil_c=soil_c)


def form_of(said: Said) -> str:
    """Slow-release where the labels call half of their nitrogen slow, else as it was put on."""
    if all(is_slow(label) for label, _ in said.products):
        return feeding.SLOW_RELEASE
    liquid = all(label.is_liquid for label, _ in said.products)
    return FORM_OF_FEED.get(said.details.get("form"), feeding.FOLIAR if liquid else feeding.GRANULAR)


def is_slow(label: Label) -> bool:
    release = nitrogen_release(label.as_printed)
    return release.slow_percent > 0 and release.slow_percent >= release.quick_percent


def near_water(green: Green, constants: Mapping[str, float]) -> Iterator[str]:
    metres, keep_m = green.distance_to_water_m, constants["caution.distance_to_water_m"]
    if metres is not None and metres < keep_m:
        near, keep = amount(float(metres), "m"), amount(keep_m, "m")
        yield f"Water lies {near} from {green}: nothing is fed within {keep} of it."


def by_the_rules(said: Said, green: Green, known: AsKept | Grounds) -> Iterator[str]:
    """What the club's own rules say: its closed time, and its limits of a year from midwinter on."""
    club = said.club
    closed = refusal(said.on, club.closed_from, club.closed_until)
    if closed:
        yield closed
    limits = {"N": club.year_limit_n_kg_ha, "P": club.year_limit_p_kg_ha}
    since = year_start(said.on, float(club.latitude_deg))
    for element, limit in limits.items():
        if limit is None:
            continue
        now = element_mg_m2(said.products, said.area_dm2, element)
        year = (now + known.nutrient_mg_m2(green, element, since, said.on)) / MG_M2_PER_KG_HA
        if now and year > limit:
            had, most = amount(year, f"kg {element}/ha"), amount(float(limit), f"kg {element}/ha")
            yield f"{green} has {had} this year with it; the club's own limit is {most}."


def judge_sand(said: Said, constants: Mapping[str, float], so_far_kg_m2: float) -> tuple[str, ...]:
    return dressing.judge_dressing(
        round(sand_kg_m2(said), 2),
        constants,
        season_so_far_kg_m2=round(so_far_kg_m2, 2),
        winter=in_winter(said.on, float(said.club.latitude_deg)),
    )


def sand_kg_m2(said: Said) -> float:
    grams = sum(amount for label, amount in said.products if label.product.kind == ProductKind.SAND)
    return grams / said.area_dm2 / 10 if said.area_dm2 else 0


def sand_so_far(said: Said, known: AsKept | Grounds) -> dict[int, float]:
    """kg/m² of sand by green since midwinter, before this entry."""
    if said.work.takes_product != "sand":
        return {}
    since = year_start(said.on, float(said.club.latitude_deg))
    return known.sand_kg_m2(said.greens, since, said.on)


def said_once(by_green: Mapping[Green, list[str]]) -> list[str]:
    """What holds for every green stands once; what holds for some stands with their names."""
    sentences = list(dict.fromkeys(sentence for said in by_green.values() for sentence in said))
    return [with_names(sentence, by_green) for sentence in sentences]


def with_names(sentence: str, by_green: Mapping[Green, list[str]]) -> str:
    names = [green.name for green, said in by_green.items() if sentence in said]
    told = len(names) == len(by_green) or any(name in sentence for name in names)
    return sentence if told else f"{', '.join(names)}: {sentence}"
