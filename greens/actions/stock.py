"""Deliveries to the shed, and counts of what is there."""

from datetime import date

from django.db import transaction
from django.utils import timezone

from greens.actions import trail
from greens.choices import StockKind
from greens.models import Membership, Product, StockLine
from growin.agronomy.fields import DetailError
from growin.agronomy.plain_words import dated


@transaction.atomic
def note_stock(
    *,
    product: Product,
    by: Membership,
    kind: str,
    on: date,
    amount: int,
    lot: str = "",
    use_by: date | None = None,
) -> StockLine:
    """So many g or ml came on a day, or were there at its end.

    Raises
    ------
    DetailError
        For a delivery of nothing, more than a shed can hold, a day to come, or a use-by day before it.
    """
    errors = _wrong(product, kind, on, amount, use_by)
    if errors:
        raise DetailError(errors)
    unit = product.newest_label.unit
    row = StockLine.objects.create(
        product=product, by=by, kind=kind, on=on, amount=amount, unit=unit, lot=lot.strip(), use_by=use_by
    )
    deed = f"{row.get_kind_display()}: {row.amount_words} of {product.name}"
    trail.write(
        club=product.club, by=by, deed=deed, row=row, changes=trail.as_created({"on": on, "lot": lot})
    )
    return row


@transaction.atomic
def take_back(*, product: Product, by: Membership, pk: int | None) -> bool:
    """A line noted by mistake counts no more; it stays in the record. False where there is no such line."""
    row = product.stock_lines.filter(pk=pk, taken_back_at=None).first()
    if row is None:
        return False
    trail.change(row, {"taken_back_at": timezone.now()})
    deed = f"Took back: {row.get_kind_display().lower()}, {row.amount_words} of {product.name}"
    trail.write(club=product.club, by=by, deed=deed, row=row)
    return True


def _wrong(product: Product, kind: str, on: date, amount: int, use_by: date | None) -> dict[str, str]:
    wrong, today = {}, product.club.local_today()
    if kind not in StockKind:
        wrong["kind"] = f"“{kind[:40]}” is neither a delivery nor a count."
    if kind == StockKind.DELIVERED and amount < 1:
        wrong["amount"] = "A delivery brings something; to say that nothing is left, count it."
    if amount < 0:
        wrong["amount"] = "There cannot be less than nothing in a shed."
    if on > today:
        wrong["on"] = f"{dated(on)} lies in the future; note it when it has come."
    if use_by and use_by < on:
        wrong["use_by"] = f"{dated(use_by)} lies before {dated(on)}; it was past its day when it came."
    return wrong
