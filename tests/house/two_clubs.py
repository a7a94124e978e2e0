"""Two clubs whose rows have numbers far apart, so that a number says at once whose row it is."""

from dataclasses import dataclass

from django.apps import apps
from django.db import connection

from greens.actions.stock import note_stock
from greens.actions.store import revise_label
from greens.choices import StockKind
from greens.models import Club, Membership, Product
from tests import cast as casting
from tests import whose
from tests.journeys.furnished import furnish
from tests.rows import rows_of

OURS_FROM, THEIRS_FROM = 50_000, 70_000
#: Stands in every text of the other club; no page of ours may ever show it.
MARK = "Zwin"
MARKED = ("name", "what", "words", "note", "caption", "subject", "text", "deed", "purpose")


@dataclass(frozen=True)
class TwoClubs:
    """``rows`` and ``theirs`` fill the words of an address with rows of the one and of the other."""

    cast: casting.Cast
    rows: dict[str, object]
    other: Club
    theirs: dict[str, object]


def two_clubs() -> TwoClubs:
    count_on_from(OURS_FROM)
    cast = casting.whole_cast()
    rows = furnish(cast)
    shed(cast.head, rows["product_id"])
    count_on_from(THEIRS_FROM)
    head = casting.club_with_head(f"{MARK} Water", f"{MARK} Heron")
    theirs = rows_of(head, casting.laid_green(head.club, f"{MARK} green"))
    shed(head, theirs["product_id"])
    mark_everything(head.club)
    return TwoClubs(cast, rows, head.club, theirs)


def shed(by: Membership, product_id: int) -> None:
    """A delivery of the feed and a newer label than the one it was spread by; the green measured anew."""
    product = Product.objects.get(pk=product_id)
    note_stock(product=product, by=by, kind=StockKind.DELIVERED, on=by.club.local_today(), amount=25_000)
    revise_label(product=product, by=by, lines={"N_total": 9}, from_day=by.club.local_today())
    by.club.greens.filter(area_dm2__gt=0).update(area_dm2=46_000)


def mark_everything(club: Club) -> None:
    for model in whose.of_clubs():
        names = [one.name for one in model._meta.concrete_fields if one.name in MARKED and not one.choices]
        for row in whose.rows_of(model, club) if names else ():
            for name in names:
                setattr(row, name, f"{MARK} {getattr(row, name)}"[:60])
            row.save(update_fields=names)


def count_on_from(number: int) -> None:
    """The next row of every table has the number after this one."""
    with connection.cursor() as cursor:
        for table in {one._meta.db_table for one in apps.get_models() if one._meta.auto_field}:
            if connection.vendor == "sqlite":
                cursor.execute("DELETE FROM sqlite_sequence WHERE name = %s", [table])
                cursor.execute("INSERT INTO sqlite_sequence VALUES (%s, %s)", [table, number])
            else:
                cursor.execute("SELECT setval(pg_get_serial_sequence(%s, 'id'), %s)", [table, number])
