"""The ledger of an entry: its greens, its products, and what they brought, in whole numbers."""

from collections.abc import Sequence

from greens.actions.possible import Line
from greens.models import Entry, EntryGreen, EntryNutrient, EntryProduct, Label
from growin.agronomy.label import nutrients_mg_m2


def write_lines(entry: Entry, lines: Sequence[Line]) -> None:
    """The greens of an entry, replacing those it had."""
    entry.lines.all().delete()
    EntryGreen.objects.bulk_create(
        EntryGreen(entry=entry, green=line.green, establishment=line.establishment, area_dm2=line.area_dm2)
        for line in lines
    )


def write_products(entry: Entry, products: Sequence[tuple[Label, int]], area_dm2: int) -> None:
    """The products of an entry and their nutrients, replacing those it had."""
    entry.products.all().delete()
    rows = [EntryProduct(entry=entry, label=label, amount=amount) for label, amount in products]
    EntryProduct.objects.bulk_create(rows)
    EntryNutrient.objects.bulk_create(nutrient for row in rows for nutrient in nutrients_of(row, area_dm2))


def nutrients_of(row: EntryProduct, area_dm2: int) -> list[EntryNutrient]:
    """What a product line brought to each square metre; nothing where no area is known."""
    if not area_dm2:
        return []
    brought = nutrients_mg_m2(row.amount, area_dm2, row.label.contents)
    return [EntryNutrient(product=row, element=element, mg_m2=mg) for element, mg in brought.items() if mg]


def element_mg_m2(products: Sequence[tuple[Label, int]], area_dm2: int, element: str) -> int:
    """An element of all products together on each square metre."""
    rows = [EntryProduct(label=label, amount=amount) for label, amount in products]
    nutrients = [nutrient for row in rows for nutrient in nutrients_of(row, area_dm2)]
    return sum(nutrient.mg_m2 for nutrient in nutrients if nutrient.element == element)
