"""Working past entries out again, only where somebody asked for it: a label or an area was wrong."""

from collections.abc import Iterable
from dataclasses import replace

from django.db import transaction

from greens.actions.diary import rewrite, said_of
from greens.actions.possible import Line, Said, lines_of
from greens.models import Entry, Green, Label, Membership, Product

DEED = "Worked out again"


@transaction.atomic
def with_newest_label(*, product: Product, by: Membership, entries: Iterable[Entry]) -> int:
    """Put the product's newest label under these entries; how many were worked out again.

    Each keeps its old figures as a revision.
    """
    label = product.labels.order_by("-revision").prefetch_related("lines").select_related("product").first()
    again = [rewrite(entry, by, relabelled(entry, label), deed=DEED) for entry in entries]
    return len(again)


def relabelled(entry: Entry, label: Label) -> Said:
    """The entry on another label of the same product; two lines of it become one."""
    amounts: dict[Label, int] = {}
    for old, amount in said_of(entry).products:
        line = label if old.product_id == label.product_id else old
        amounts[line] = amounts.get(line, 0) + amount
    return replace(as_it_stood(entry), products=tuple(amounts.items()))


@transaction.atomic
def with_area(*, green: Green, by: Membership, entries: Iterable[Entry]) -> int:
    """Put the green's present area under these entries; how many were worked out again."""
    again = [rewrite(entry, by, remeasured(entry, green), deed=DEED) for entry in entries]
    return len(again)


def remeasured(entry: Entry, green: Green) -> Said:
    said = as_it_stood(entry)
    lines = [line._replace(area_dm2=green.area_dm2) if line.green == green else line for line in said.lines]
    return replace(said, lines=tuple(lines))


def as_it_stood(entry: Entry) -> Said:
    """The entry as it was told, on the areas that it was kept with."""
    said = said_of(entry)
    areas = {line.green_id: line.area_dm2 for line in entry.lines.all()}
    lines: list[Line] = lines_of(said, areas)
    return replace(said, lines=tuple(lines))
