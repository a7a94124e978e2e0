"""What came into the shed, and what was counted there."""

from django.contrib import messages
from django.shortcuts import redirect, render
from django.views.decorators.http import require_POST

from greens.access import Right, door
from greens.actions import stock as actions
from greens.forms.stock import StockSheet, asked_line
from growin.agronomy.fields import DetailError


@door(Right.LOG)
def note_stock(request, here, product):
    form = StockSheet(request.POST or None, product=product)
    if request.method == "POST" and form.is_valid():
        try:
            row = actions.note_stock(product=product, by=here.member, **form.values())
        except DetailError as refused:
            form.take(refused.errors)
        else:
            messages.success(request, f"Kept: {row.amount_words} of {product.name}.")
            return redirect("product", here.club.slug, product.pk)
    return render(request, "greens/stock/note.html", {"form": form, "product": product})


@door(Right.LOG)
@require_POST
def take_back(request, here, product):
    if actions.take_back(product=product, by=here.member, pk=asked_line(request.POST)):
        messages.success(request, "Taken back; the shed is reckoned without it.")
    return redirect("product", here.club.slug, product.pk)
