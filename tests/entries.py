"""Entries and labels for tests: as the actions take them, and as the forms send them."""

from decimal import Decimal
from uuid import uuid4

from django.urls import reverse

from greens.actions import store
from greens.actions.diary import record_work
from greens.models import Entry, Label


def label(cast, name="Spring feed", *, kind="granular", lines=None, **more) -> Label:
    """A product of the store with what its label prints, in per cent."""
    lines = {part: Decimal(str(percent)) for part, percent in (lines or {}).items()}
    product = store.add_product(
        club=cast.club, by=cast.head, kind=kind, name=name, lines=lines, **{"from_day": cast.today, **more}
    )
    return product.newest_label


def logged(cast, kind="cut", *, by=None, **more) -> Entry:
    """Work on the cast's green today; a cut at 8 mm unless told otherwise."""
    said = {"on": cast.today, "greens": [cast.green], "details": {"height_mm": 8} if kind == "cut" else {}}
    by = by or cast.staff
    return record_work(club=cast.club, by=by, done_by=by, kind=kind, **{**said, **more})


def brought(entry: Entry) -> dict[str, int]:
    """mg on each m² by element."""
    return {nutrient.element: nutrient.mg_m2 for nutrient in entry.nutrients}


def at(cast, name, *args) -> str:
    """An address of the cast's club."""
    return reverse(name, args=[cast.club.slug, *args])


def cut(cast, **more) -> dict:
    """A cut as the form sends it."""
    return {
        "greens": [cast.green.pk],
        "height_mm": "8",
        "on": "2026-04-16",
        "done_by": cast.staff.pk,
        "client_id": str(uuid4()),
        **more,
    }


def fed(cast, *lines, **more) -> dict:
    """A feed as the form sends it; lines as (label, amount, way)."""
    sent = {name: value for name, value in cut(cast, **more).items() if name != "height_mm"}
    sent |= {"products-TOTAL_FORMS": len(lines), "products-INITIAL_FORMS": 0}
    for number, (label, amount, way) in enumerate(lines):
        line = {"label": label.pk, "amount": amount, "way": way}
        sent |= {f"products-{number}-{name}": value for name, value in line.items()}
    return sent
