"""What stands in the shed: products, and their labels revision by revision."""

from datetime import date

from django.db import transaction

from greens.actions import trail
from greens.models import Club, Label, LabelLine, Membership, Product
from greens.models.label import contents_of
from greens.queries import store
from growin.agronomy.fields import DetailError
from growin.agronomy.impossible import ImpossibleValue


@transaction.atomic
def add_product(*, club: Club, by: Membership, kind: str, name: str, lines: dict, **more) -> Product:
    """A product with its first label.

    ``more`` may hold registration_number and material of the product, and of the label basis,
    unit, density_kg_l, bulk_density_t_m3, release_weeks, from_day.

    Raises DetailError for a name that the store already has, or a label that cannot be.
    """
    refuse_taken(club, name)
    own = {key: more.pop(key) for key in ("registration_number", "material") if key in more}
    product = Product.objects.create(club=club, kind=kind, name=name, **own)
    write_label(product, by, lines, more)
    trail.write(club=club, by=by, deed=f"Put {name} into the store", row=product)
    return product


@transaction.atomic
def change_product(*, product: Product, by: Membership, **values) -> None:
    """Name, registration number or material; what it contains is changed by a new label."""
    refuse_taken(product.club, values.get("name", product.name), but=product)
    deed = f"Changed {product.name} in the store"
    trail.save_changes(row=product, values=values, club=product.club, by=by, deed=deed)


@transaction.atomic
def revise_label(*, product: Product, by: Membership, lines: dict, **label) -> Label:
    """A new label beside the old ones; entries keep the label they were kept with.

    Raises DetailError for a label that cannot be.
    """
    old = product.labels.first()
    new = write_label(product, by, lines, label)
    changes = changed_lines(old, new)
    deed = f"Label {new.revision} of {product.name}"
    trail.write(club=product.club, by=by, deed=deed, row=product, changes=changes)
    return new


@transaction.atomic
def retire_product(*, product: Product, by: Membership, on: date) -> None:
    """No longer offered when work is logged; what was kept stays."""
    deed = f"Took {product.name} out of use"
    trail.save_changes(row=product, values={"retired_on": on}, club=product.club, by=by, deed=deed)


@transaction.atomic
def bring_back_product(*, product: Product, by: Membership) -> None:
    deed = f"Brought {product.name} back into use"
    trail.save_changes(row=product, values={"retired_on": None}, club=product.club, by=by, deed=deed)


def refuse_taken(club: Club, name: str, but: Product | None = None) -> None:
    if store.name_is_taken(club, name, but):
        raise DetailError({"name": f"The store already has {name}; give this one another name."})


def write_label(product: Product, by: Membership, lines: dict, label: dict) -> Label:
    """Raises DetailError when the parts cannot stand together."""
    row = Label(product=product, revision=product.labels.count() + 1, by=by, **label)
    check_label(lines, row)
    row.save()
    LabelLine.objects.bulk_create(
        LabelLine(label=row, part=part, percent=percent) for part, percent in lines.items()
    )
    return row


def check_label(lines: dict, label: Label) -> None:
    if not lines:
        return
    try:
        contents_of(lines, label.unit, label.basis, label.density_kg_l)
    except ImpossibleValue as refused:
        raise DetailError({"label": f"Not a label that can be: {refused}"}) from None


def changed_lines(old: Label | None, new: Label) -> dict:
    """What differs between two labels, as {part: [from, to]}."""
    before, after = (old.as_printed if old else {}), new.as_printed
    parts = [part for part in before | after if before.get(part) != after.get(part)]
    return {part: [trail.plain(before.get(part)), trail.plain(after.get(part))] for part in parts}
