"""What a judgement of work rests on, for every day of a club at once.

One entry asks for the rebuilds, areas, constants, soil and sand of its own day; ten thousand entries
have them read once and looked up here. Both must answer alike: a test compares them.
"""

from bisect import bisect_left, bisect_right, insort
from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from datetime import date, timedelta
from functools import cached_property

from greens.models import Area, Club, Entry, EntryGreen, EntryProduct, Establishment, Green
from greens.queries import nutrients, sands, settings

#: Elements of which a club may limit the year.
LIMITED = {"N", "P"}


class Grounds:
    """Of one club, as its record stands now; what it is told to remember counts from then on."""

    def __init__(self, club: Club):
        self.club = club
        self._constants: dict[tuple[int, int], Mapping[str, float]] = {}
        self._rebuilds: dict[int, list[Establishment]] = defaultdict(list)
        for row in Establishment.objects.filter(green__club=club).order_by("number"):
            self._rebuilds[row.green_id].append(row)

    def rebuild_on(self, green: Green, on: date) -> Establishment | None:
        """The last whose works had begun by that day, else the first one."""
        found = None
        for row in self._rebuilds.get(green.pk, ()):
            if found is None or row.works_started_on <= on:
                found = row
        return found

    def rebuild_begun(self, green: Green, on: date) -> Establishment | None:
        """The last whose works had begun by that day, or none."""
        found = self.rebuild_on(green, on)
        return found if found and found.works_started_on <= on else None

    @cached_property
    def _areas(self) -> dict[int, tuple[list[date], list[int]]]:
        found: dict[int, tuple[list[date], list[int]]] = defaultdict(lambda: ([], []))
        rows = Area.objects.filter(green__club=self.club, part="").order_by("measured_on", "pk")
        for green, on, dm2 in rows.values_list("green_id", "measured_on", "area_dm2"):
            days, areas = found[green]
            days.append(on)
            areas.append(dm2)
        return dict(found)

    def area_on(self, green: Green, on: date) -> int:
        """dm² as measured by that day, else as it is known now; 0 where nothing is."""
        days, areas = self._areas.get(green.pk, ((), ()))
        measured = bisect_right(days, on)
        return areas[measured - 1] if measured else green.area_dm2 or 0

    # ---- constants of the trade ---------------------------------------------------------------------

    @cached_property
    def _overrides(self) -> list:
        return list(self.club.settings.order_by("in_force_from", "pk"))

    @cached_property
    def _turns(self) -> list[date]:
        return sorted({row.in_force_from for row in self._overrides})

    def era(self, on: date) -> int:
        """Days of the same era have the same constants."""
        return bisect_right(self._turns, on)

    def constants(self, green_pk: int, on: date) -> Mapping[str, float]:
        """Every constant by key as it counts for a green on that day."""
        key = green_pk, self.era(on)
        if key not in self._constants:
            counting = [row for row in self._overrides if row.in_force_from <= on]
            own = [row for row in counting if row.green_id in (None, green_pk)]
            self._constants[key] = settings.merged(own)
        return self._constants[key]

    # ---- soil, sand and nutrients -------------------------------------------------------------------

    @cached_property
    def _soil_c(self) -> dict[date, float]:
        days = self.club.weather_days.filter(is_estimated=False).exclude(soil_100_c=None)
        return {on: float(soil) for on, soil in days.order_by().values_list("on", "soil_100_c")}

    def soil_c(self, on: date) -> float | None:
        """Measured at 100 mm on that day."""
        return self._soil_c.get(on)

    @cached_property
    def _sand(self) -> dict[int, list[tuple[date, float]]]:
        """kg/m² by green with their days in order, of the entries that count."""
        found = sands.dressings(self.club.greens.all())
        return in_order((pk, one.on, one.kg_m2) for pk, rows in found.items() for one in rows)

    def sand_kg_m2(self, greens: Iterable[Green], since: date, until: date) -> dict[int, float]:
        """Of each green in a span of days, both included."""
        return {green.pk: within(self._sand.get(green.pk, ()), since, until) for green in greens}

    @cached_property
    def _nutrients(self) -> dict[tuple[int, str], list[tuple[date, int]]]:
        """mg/m² by green and element with their days in order, of the entries that count."""
        rows = nutrients.ledger(*LIMITED).filter(product__entry__club=self.club)
        said = rows.order_by().values_list(
            "product__entry__lines__green", "element", "product__entry__lines__on", "mg_m2"
        )
        return in_order(((green, element), on, mg) for green, element, on, mg in said)

    def nutrient_mg_m2(self, green: Green, element: str, since: date, until: date) -> int:
        """Of a green in a span of days, both included."""
        return within(self._nutrients.get((green.pk, element), ()), since, until)

    def remember_sand(self, greens: Iterable[Green], on: date, kg_m2: float) -> None:
        """Sand of an entry that is about to be kept: the next one finds it there."""
        for green in greens:
            insort(self._sand.setdefault(green.pk, []), (on, kg_m2))

    def remember_nutrients(self, greens: Iterable[Green], on: date, mg_m2: Mapping[str, int]) -> None:
        """Nutrients of an entry that is about to be kept."""
        for green in greens:
            for element in LIMITED & mg_m2.keys():
                insort(self._nutrients.setdefault((green.pk, element), []), (on, mg_m2[element]))

    # ---- what stands already ------------------------------------------------------------------------

    def entries_there(self, first: date, last: date) -> dict[tuple, int]:
        """How often each green had each work with the same products, by (day, kind, green, products)."""
        rows = Entry.objects.filter(club=self.club, taken_back_at=None, on__range=(first, last))
        products: dict[int, list[tuple[int, int]]] = defaultdict(list)
        used = EntryProduct.objects.filter(entry__in=rows.order_by().values("pk"))
        for entry, product, amount in used.values_list("entry_id", "label__product_id", "amount"):
            products[entry].append((product, amount))
        found: dict[tuple, int] = defaultdict(int)
        lines = EntryGreen.objects.filter(entry__in=rows.order_by().values("pk")).order_by()
        for entry, on, kind, green in lines.values_list("entry_id", "on", "kind", "green_id"):
            found[on, kind, green, tuple(sorted(products.get(entry, ())))] += 1
        return found


def in_order(rows: Iterable[tuple]) -> dict:
    """(day, figure) by key, the oldest first."""
    found: dict = defaultdict(list)
    for key, on, figure in rows:
        found[key].append((on, figure))
    return {key: sorted(pairs) for key, pairs in found.items()}


def within(pairs: Sequence[tuple], since: date, until: date):
    """The sum of the figures of a span of days, both included."""
    first, last = bisect_left(pairs, (since,)), bisect_left(pairs, (until + timedelta(days=1),))
    return sum(figure for _, figure in pairs[first:last])
