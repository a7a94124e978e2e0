"""What a judgement of work rests on, for every day of a club at once.

One entry asks for the rebuilds, areas, constants, soil and sand of its own day; ten thousand entries
have them read once and looked up here. Both must answer alike: a test compares them.
"""

from bisect import bisect_right
from collections import defaultdict
from collections.abc import Iterable, Mapping
from datetime import date
from functools import cached_property

from greens.choices import ProductKind
from greens.models import Area, Club, Entry, EntryGreen, EntryProduct, Establishment, Green
from greens.queries import settings


class Grounds:
    """Of one club, as its record stands now; what :meth:`remember_sand` is told counts from then on."""

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

    # ---- soil and sand ------------------------------------------------------------------------------

    @cached_property
    def _soil_c(self) -> dict[date, float]:
        days = self.club.weather_days.filter(is_estimated=False).exclude(soil_100_c=None)
        return {on: float(soil) for on, soil in days.order_by().values_list("on", "soil_100_c")}

    def soil_c(self, on: date) -> float | None:
        """Measured at 100 mm on that day."""
        return self._soil_c.get(on)

    @cached_property
    def _sand(self) -> dict[int, list[tuple[date, float]]]:
        """kg/m² by green with their days, of the entries that count."""
        sums: dict[tuple[int, date], int] = defaultdict(int)
        rows = EntryProduct.objects.filter(
            entry__club=self.club, entry__taken_back_at=None, label__product__kind=ProductKind.SAND
        )
        for entry, on, grams in rows.order_by().values_list("entry_id", "entry__on", "amount"):
            sums[entry, on] += grams
        return self._spread(sums)

    def _spread(self, sums: Mapping[tuple[int, date], int]) -> dict[int, list[tuple[date, float]]]:
        found: dict[int, list[tuple[date, float]]] = defaultdict(list)
        sandy = EntryProduct.objects.filter(entry__club=self.club, label__product__kind=ProductKind.SAND)
        lines: dict[int, list[tuple[int, int]]] = defaultdict(list)
        of_entries = EntryGreen.objects.filter(entry__in=sandy.values("entry"))
        for entry, green, dm2 in of_entries.values_list("entry_id", "green_id", "area_dm2"):
            lines[entry].append((green, dm2))
        for (entry, on), grams in sums.items():
            area = sum(dm2 for _, dm2 in lines[entry])
            for green, _ in lines[entry]:
                found[green].append((on, grams / area / 10 if area else 0))
        return found

    def sand_kg_m2(self, greens: Iterable[Green], since: date, until: date) -> dict[int, float]:
        """Of each green in a span of days, both included."""
        return {
            green.pk: sum(kg for on, kg in self._sand.get(green.pk, ()) if since <= on <= until)
            for green in greens
        }

    def remember_sand(self, greens: Iterable[Green], on: date, kg_m2: float) -> None:
        """Sand of an entry that is about to be kept: the next one finds it there."""
        for green in greens:
            self._sand.setdefault(green.pk, []).append((on, kg_m2))

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
        for entry, on, kind, green in lines.values_list("entry_id", "entry__on", "entry__kind", "green_id"):
            found[on, kind, green, tuple(sorted(products.get(entry, ())))] += 1
        return found
