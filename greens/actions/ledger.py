"""The ledger of an entry: its greens, its products, and what they brought, in whole numbers."""

from collections.abc import Mapping, Sequence

from greens.actions.possible import Said
from greens.models import Entry, EntryGreen, EntryNutrient, EntryProduct, Label
from growin.agronomy.label import nutrients_mg_m2


def write_lines(entry: Entry, said: Said) -> None:
    """The greens of an entry, replacing those it had."""
    entry.lines.all().delete()
    EntryGreen.objects.bulk_create(as_lines(entry, said))


def as_lines(entry: Entry, said: Said) -> list[EntryGreen]:
    """The lines of an entry, on the day that is said now."""
    return [
        EntryGreen(
            entry_id=entry.pk,
            green_id=line.green.pk,
            establishment=line.establishment,
            kind=said.kind,
            on=said.on,
            area_dm2=line.area_dm2,
        )
        for line in said.lines
    ]


def write_products(entry: Entry, products: Sequence[tuple[Label, int]], area_dm2: int) -> None:
    """The products of an entry and their nutrients, replacing those it had."""
    entry.products.all().delete()
    rows = [EntryProduct(entry=entry, label=label, amount=amount) for label, amount in products]
    EntryProduct.objects.bulk_create(rows)
    EntryNutrient.objects.bulk_create(nutrient for row in rows for nutrient in nutrients_of(row, area_dm2))


def nutrients_of(row: EntryProduct, area_dm2: int) -> list[EntryNutrient]:
    """What a product line brought to each square metre; nothing where no area is known."""
    return as_rows(row, brought_mg_m2(row.label, row.amount, area_dm2))


def as_rows(row: EntryProduct, brought: Mapping[str, int]) -> list[EntryNutrient]:
    return [EntryNutrient(product=row, element=element, mg_m2=mg) for element, mg in brought.items()]


def brought_mg_m2(label: Label, amount: int, area_dm2: int) -> dict[str, int]:
    """mg/m² by element of an amount of product, what it brought only."""
    brought = nutrients_mg_m2(amount, area_dm2, label.contents) if area_dm2 else {}
    return {element: mg for element, mg in brought.items() if mg}


def element_mg_m2(products: Sequence[tuple[Label, int]], area_dm2: int, element: str) -> int:
    """An element of all products together on each square metre."""
    return sum(brought_mg_m2(label, amount, area_dm2).get(element, 0) for label, amount in products)
