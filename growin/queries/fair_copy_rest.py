"""What else a club has, as rows: limits that were passed, stock, weather, greens, rebuilds, decisions,
settings, and the record of changes without anybody's address."""

import re
from collections.abc import Iterator
from decimal import Decimal

from greens.models import Club, Establishment, StockLine
from greens.queries import diary
from greens.queries import greens as places
from growin.agronomy.species import ESTABLISHMENTS, SPECIES
from growin.agronomy.weather_day import WEATHER
from growin.queries import decision as decisions
from growin.queries.fair_copy_books import AT_A_TIME, BIG_UNITS

ADDRESS = re.compile(r"[^\s@:;,]+@[^\s@:;,]+")
OVER_LIMITS = ["Day", "Greens", "Work", "What the limits say"]
STOCK = ["Product", "What", "Day", "Amount", "Unit", "Lot", "Use by", "By"]
WEATHER_DAYS = ["Day", *(field.label for field in WEATHER.values()), "Source", "Estimated"]
GREENS = ["Green", "Number on the card", "Area, m²", "Distance to water, m"]
REBUILDS = [
    "Green", "Rebuild", "Kind", "Grass", "Works started", "Laid or sown", "Summer height, mm",
    "Height of the other greens, mm", "Maintenance ends", "Seed, g/m²",
]  # fmt: skip
DECISIONS = [
    "Green", "Rebuild", "Play", "Decided on", "From", "Stop rule", "Meeting on", "Present", "Reason",
    "Against the verdict", "Verdict", "Digest of the evidence", "By",
]  # fmt: skip
SETTINGS = ["Setting", "Green", "Value", "In force from", "By", "Why"]
CHANGES = ["When", "By", "Deed", "Green", "From and to"]


def over_limits(club: Club) -> Iterator[list]:
    over = diary.listed(diary.of(club).exclude(over_limit=[])).order_by("on", "pk")
    for entry in over.iterator(chunk_size=AT_A_TIME):
        for sentence in entry.over_limit:
            yield [entry.on, entry.places, entry.work.words, sentence]


def stock_rows(club: Club) -> Iterator[list]:
    rows = StockLine.objects.filter(product__club=club).select_related("product", "by").order_by("on", "pk")
    for line in rows.iterator():
        amount, unit = Decimal(line.amount) / 1000, BIG_UNITS[line.unit]
        what = line.get_kind_display()
        yield [line.product.name, what, line.on, amount, unit, line.lot, line.use_by, line.by.name]


def weather_rows(club: Club) -> Iterator[list]:
    for day in club.weather_days.order_by("on").iterator():
        yield [
            day.on,
            *(getattr(day, key) for key in WEATHER),
            day.source,
            "yes" if day.is_estimated else "no",
        ]


def green_rows(club: Club) -> Iterator[list]:
    for green in places.of(club):
        yield [green.name, green.position, green.area_m2, green.distance_to_water_m]


def rebuild_rows(club: Club) -> Iterator[list]:
    rows = Establishment.objects.filter(green__club=club).select_related("green")
    for one in rows.order_by("green__position", "green__name", "number"):
        yield [
            one.green.name,
            one.number,
            ESTABLISHMENTS[one.kind].words,
            SPECIES[one.species].words,
            one.works_started_on,
            one.established_on,
            one.summer_height_mm,
            one.others_height_mm,
            one.maintenance_ends_on,
            one.seed_rate_g_m2,
        ]


def decision_rows(club: Club) -> Iterator[list]:
    for one in decisions.all_of(club).order_by("pk").iterator():
        yield [
            one.establishment.green.name,
            one.establishment.number,
            one.get_pattern_display(),
            one.made_on,
            one.from_day,
            one.stop_rule,
            one.meeting_on,
            one.present,
            one.reason,
            "yes" if one.is_against_verdict else "no",
            one.verdict,
            one.digest,
            one.by.name,
        ]


def setting_rows(club: Club) -> Iterator[list]:
    rows = club.settings.select_related("green", "by").order_by("in_force_from", "pk")
    for one in rows:
        yield [one.key, one.green and one.green.name, one.value, one.in_force_from, one.by.name, one.why]


def trail_rows(club: Club) -> Iterator[list]:
    rows = club.trail.select_related("by", "green").order_by("at", "pk")
    for line in rows.iterator(chunk_size=AT_A_TIME):
        when = f"{line.at.astimezone(club.zone):%Y-%m-%d %H:%M}"
        changes = "; ".join(f"{name}: {pair}" for name, pair in changed(line.changes))
        by, green = line.by and line.by.name, line.green and line.green.name
        yield [when, by, without_addresses(line.deed), green, without_addresses(changes)]


def changed(changes: dict) -> Iterator[tuple[str, str]]:
    for name, pair in changes.items():
        both = isinstance(pair, list) and len(pair) == 2
        yield name, f"{shown(pair[0])} → {shown(pair[1])}" if both else str(pair)


def shown(value) -> str:
    return "nothing" if value in (None, "") else str(value)


def without_addresses(text: str) -> str:
    return ADDRESS.sub("(address)", text)
