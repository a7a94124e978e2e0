"""Work by the thousand: the same judge, the same limits and the same ledger as for one entry, asked once
for what is alike."""

from collections.abc import Sequence
from dataclasses import replace
from functools import cached_property, partial

from greens.actions import defect, limits
from greens.actions.ledger import as_lines, as_rows, brought_mg_m2, element_mg_m2
from greens.actions.possible import Line, Said, check_days, cleaned_but_day
from greens.models import Book, Defect, Entry, EntryGreen, EntryNutrient, EntryProduct, Label
from greens.queries.grounds import LIMITED, Grounds
from growin.agronomy.closed_time import is_closed
from growin.agronomy.fields import DetailError
from growin.agronomy.impossible import ImpossibleValue

AT_A_TIME = 5_000

__all__ = ["Judge", "Line", "write"]


class Judge:
    """Judges one entry after the other; what was judged before is not worked out again."""

    def __init__(self, grounds: Grounds):
        self.grounds = grounds
        self._cleaned: dict[tuple, dict | DetailError] = {}
        self._over: dict[tuple, list[str]] = {}

    def judged(self, said: Said) -> Said | list[tuple[str, str]]:
        """The work as it is kept, or a value and a sentence for everything that cannot be."""
        cleaned = self._all_but_day(said)
        sentences = list(cleaned.errors.values()) if isinstance(cleaned, DetailError) else []
        try:
            check_days(said)
        except ImpossibleValue as refused:
            sentences.insert(0, str(refused))
        return [("", sentence) for sentence in sentences] or replace(said, **cleaned)

    def _all_but_day(self, said: Said) -> dict | DetailError:
        key = self._alike(said), tuple(said.details.items()), said.note, said.minutes, said.done_by.pk
        if key not in self._cleaned:
            self._cleaned[key] = refused_or(partial(cleaned_but_day, said))
        return self._cleaned[key]

    @staticmethod
    def _alike(said: Said) -> tuple:
        """What tells entries apart but for their day."""
        products = tuple([(label.pk, amount) for label, amount in said.products])
        return said.kind, products, said.area_dm2 if products else 0

    def over_limit(self, said: Said) -> list[str]:
        """As :func:`greens.actions.limits.over_limit`, against the record and what was judged before."""
        if not said.products and said.kind != "cut":
            return []
        if said.products and (self._limits_the_year or said.work.takes_product == "sand"):
            return self._with_what_was_before(said)
        key = self._alike(said), tuple(said.details.items()), *self._day(said)
        if key not in self._over:
            self._over[key] = limits.over_limit(said, grounds=self.grounds)
        return self._over[key]

    def _day(self, said: Said) -> tuple:
        """What of the day and the place the limits ask for."""
        lines = tuple([(line.green.pk, line.establishment and line.establishment.pk) for line in said.lines])
        club, on = said.club, said.on
        of_a_feed = said.products and (
            self.grounds.soil_c(on),
            is_closed(on, club.closed_from, club.closed_until),
        )
        return lines, self.grounds.era(on), of_a_feed

    @cached_property
    def _limits_the_year(self) -> bool:
        club = self.grounds.club
        return (club.year_limit_n_kg_ha, club.year_limit_p_kg_ha) != (None, None)

    def _with_what_was_before(self, said: Said) -> list[str]:
        """Where sums of the year count, each entry is one of them for the next."""
        over = limits.over_limit(said, grounds=self.grounds)
        self.grounds.remember_sand(said.greens, said.on, limits.sand_kg_m2(said))
        brought = {element: element_mg_m2(said.products, said.area_dm2, element) for element in LIMITED}
        self.grounds.remember_nutrients(said.greens, said.on, brought)
        return over


def refused_or(judge) -> dict | DetailError:
    try:
        return judge()
    except DetailError as refused:
        return refused


# ---- writing ----------------------------------------------------------------------------------------


def write(works: Sequence[tuple[Said, list[str]]], book: Book) -> None:
    """Keep entries with greens, products and nutrients; the caller's transaction holds them together."""
    brought = Brought()
    for start in range(0, len(works), AT_A_TIME):
        part = works[start : start + AT_A_TIME]
        entries = Entry.objects.bulk_create([entry_of(said, over, book) for said, over in part])
        write_part(entries, [said for said, _ in part], brought)


def entry_of(said: Said, over: list[str], book: Book) -> Entry:
    return Entry(
        club=said.club,
        kind=said.kind,
        on=said.on,
        at_time=said.at_time,
        done_by=said.done_by,
        logged_by=book.logged_by,
        details=said.details,
        note=said.note,
        minutes=said.minutes,
        over_limit=over,
        book=book,
    )


def write_part(entries: Sequence[Entry], works: Sequence[Said], brought: "Brought") -> None:
    pairs = list(zip(entries, works, strict=True))
    EntryGreen.objects.bulk_create([line for entry, said in pairs for line in as_lines(entry, said)])
    products = [
        (EntryProduct(entry_id=entry.pk, label=label, amount=amount), said.area_dm2)
        for entry, said in pairs
        for label, amount in said.products
    ]
    EntryProduct.objects.bulk_create([row for row, _ in products])
    EntryNutrient.objects.bulk_create(
        [
            nutrient
            for row, dm2 in products
            for nutrient in as_rows(row, brought.of(row.label, row.amount, dm2))
        ]
    )
    note_defects(pairs)


class Brought:
    """What amounts brought, worked out once for each label, amount and area."""

    def __init__(self):
        self._known: dict[tuple, dict[str, int]] = {}

    def of(self, label: Label, amount: int, area_dm2: int) -> dict[str, int]:
        key = label.pk, amount, area_dm2
        if key not in self._known:
            self._known[key] = brought_mg_m2(label, amount, area_dm2)
        return self._known[key]


def note_defects(pairs: Sequence[tuple[Entry, Said]]) -> None:
    """In the record too, where an entry is one of a defect."""
    found = [(entry, said) for entry, said in pairs if said.kind == defect.KIND]
    Defect.objects.bulk_create(
        [
            Defect(
                establishment=line.establishment,
                entry=entry,
                by=entry.logged_by,
                **defect.values_of(said.content(), line.establishment),
            )
            for entry, said in found
            for line in said.lines
            if line.establishment
        ]
    )
