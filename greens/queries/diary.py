"""The diary of a club."""

from django.db.models import Prefetch, QuerySet

from greens.models import Club, Entry, EntryGreen, EntryProduct, Green


def of(club: Club) -> QuerySet[Entry]:
    """Entries that count: not taken back, newest day first."""
    return club.entries.filter(taken_back_at=None)


def with_lines(entries: QuerySet[Entry]) -> QuerySet[Entry]:
    """Entries with greens, products, nutrients and people, in a fixed number of queries."""
    products = EntryProduct.objects.select_related("label__product").prefetch_related("nutrients")
    return entries.select_related("done_by", "logged_by").prefetch_related(
        Prefetch("lines", EntryGreen.objects.select_related("green").order_by("green__position")),
        Prefetch("products", products),
        "files",
    )


def one(club: Club, pk: int) -> Entry:
    """Any entry of the club, also one that was taken back."""
    return with_lines(club.entries.all()).get(pk=pk)


def on_green(entries: QuerySet[Entry], green: Green) -> QuerySet[Entry]:
    return entries.filter(lines__green=green)
