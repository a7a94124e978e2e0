"""The diary of a club."""

from collections.abc import Iterable
from datetime import date
from uuid import UUID

from django.db.models import Count, Prefetch, Q, QuerySet, TextField
from django.db.models.functions import Cast

from greens.models import Club, Entry, EntryGreen, EntryProduct, Green, Membership
from growin.agronomy.works import WORKS


def of(club: Club) -> QuerySet[Entry]:
    """Entries that count: not taken back, newest day first."""
    return club.entries.filter(taken_back_at=None)


def with_lines(entries: QuerySet[Entry]) -> QuerySet[Entry]:
    """Entries with greens, products, nutrients, people and photographs, in a fixed number of queries."""
    return listed(entries).select_related("done_by", "logged_by").prefetch_related("files")


def listed(entries: QuerySet[Entry]) -> QuerySet[Entry]:
    """Entries with what a list says of them: greens, products, nutrients, who did it."""
    products = EntryProduct.objects.select_related("label__product").prefetch_related("nutrients")
    return entries.select_related("done_by").prefetch_related(
        Prefetch("lines", EntryGreen.objects.select_related("green").order_by("green__position")),
        Prefetch("products", products),
    )


def one(club: Club, pk: int) -> Entry:
    """Any entry of the club, also one that was taken back."""
    return with_lines(club.entries.select_related("taken_back_by", "club")).get(pk=pk)


def counted(club: Club, pk: int) -> Entry | None:
    """An entry of the club that counts, with its greens; none for any other."""
    return with_lines(of(club)).filter(pk=pk).first()


def over_limit(club: Club, first: date, last: date) -> QuerySet[Entry]:
    """Entries of these days that went over a limit, with their greens; newest first."""
    found = of(club).filter(on__range=(first, last)).exclude(over_limit=[])
    return found.prefetch_related(Prefetch("lines", EntryGreen.objects.select_related("green")))


def arrived(club: Club, client_id: UUID) -> Entry | None:
    """The entry that came under this number before."""
    return with_lines(club.entries.filter(client_id=client_id)).first()


def on_green(entries: QuerySet[Entry], green: Green) -> QuerySet[Entry]:
    return entries.filter(lines__green=green)


def first_day(green: Green) -> date | None:
    """The day of the first entry of a green; one query."""
    return on_green(of(green.club), green).order_by("on").values_list("on", flat=True).first()


def days_of(green: Green, kind: str, first: date, last: date) -> list[date]:
    """The days on which a kind of work was done on a green, oldest first; one query."""
    return list(lines_on(green, kind, first, last).order_by("on").values_list("on", flat=True))


def lines_on(green: Green, kind: str, first: date, last: date) -> QuerySet[EntryGreen]:
    """A kind of work on a green in a span of days, both included."""
    return green.entry_lines.filter(kind=kind, on__range=(first, last), entry__taken_back_at=None)


def by_green(entries: QuerySet[Entry], greens: Iterable[Green]) -> dict[int, list[Entry]]:
    """Entries of each of these greens, by the green's id; two queries."""
    found: dict[int, list[Entry]] = {}
    for one in entries.filter(lines__green__in=list(greens)).distinct().prefetch_related("lines"):
        for line in one.lines.all():
            found.setdefault(line.green_id, []).append(one)
    return found


def sought(
    entries: QuerySet[Entry],
    *,
    words: str = "",
    green: Green | None = None,
    kind: str = "",
    done_by: Membership | None = None,
    first: date | None = None,
    last: date | None = None,
) -> QuerySet[Entry]:
    """Entries that fit everything that was asked for."""
    asked = {"kind": kind, "done_by": done_by, "lines__green": green, "on__gte": first, "on__lte": last}
    entries = entries.filter(**{name: value for name, value in asked.items() if value})
    for word in words.split():
        entries = with_word(entries, word)
    return entries


def with_word(entries: QuerySet[Entry], word: str) -> QuerySet[Entry]:
    """Entries that say the word in their kind, note, details, products, greens or people."""
    kinds = [key for key, work in WORKS.items() if word.lower() in work.words.lower()]
    products = EntryProduct.objects.filter(label__product__name__icontains=word).values("entry")
    greens = EntryGreen.objects.filter(green__name__icontains=word).values("entry")
    return entries.annotate(details_text=Cast("details", TextField())).filter(
        Q(kind__in=kinds)
        | Q(note__icontains=word)
        | Q(details_text__icontains=word)
        | Q(done_by__name__icontains=word)
        | Q(pk__in=products)
        | Q(pk__in=greens)
    )


def kinds_by_use(club: Club, since: date) -> list[str]:
    """Kinds that were logged since that day, the most used first."""
    rows = of(club).filter(on__gte=since).order_by().values("kind").annotate(times=Count("pk"))
    return [row["kind"] for row in rows.order_by("-times", "kind")]


def last_of(club: Club, kind: str, greens: Iterable[Green] = ()) -> Entry | None:
    """The newest entry of a kind, on one of these greens where any are named."""
    entries = of(club).filter(kind=kind)
    named = [green.pk for green in greens]
    if named:
        entries = entries.filter(pk__in=EntryGreen.objects.filter(green__in=named).values("entry"))
    return with_lines(entries).first()
