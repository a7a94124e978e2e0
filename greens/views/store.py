"""The store: what is in the shed, and what its labels say."""

from datetime import timedelta

from django.contrib import messages
from django.http import Http404
from django.shortcuts import redirect, render
from django.views.decorators.http import require_POST

from greens.access import Right, door
from greens.actions import store as actions
from greens.choices import ProductKind
from greens.forms.store import ChangeProduct, LabelSheet, NewProduct, own_fields
from greens.queries import files, stock
from greens.queries import store as queries
from growin.agronomy.fields import DetailError

YEAR = timedelta(days=365)


@door(Right.READ)
def store(request, here):
    products = list(queries.products(here.club))
    shelves = [
        (kind.label, [row for row in products if row.kind == kind and row.retired_on is None])
        for kind in ProductKind
    ]
    retired = [row for row in products if row.retired_on]
    context = {
        "shelves": shelves,
        "retired": retired,
        "stocks": stock.of_club(here.club, here.club.local_today()),
    }
    return render(request, "greens/store/list.html", context)


@door(Right.MANAGE)
def choose_kind(request, here):
    return render(request, "greens/store/kinds.html", {"kinds": ProductKind.choices})


@door(Right.MANAGE)
def add(request, here, kind):
    if kind not in ProductKind:
        raise Http404
    today = here.club.local_today()
    form = NewProduct(
        request.POST or None, club=here.club, kind=kind, latest=today, initial=NewProduct.first(kind, today)
    )
    if request.method == "POST" and form.is_valid():
        try:
            product = actions.add_product(
                club=here.club,
                by=here.member,
                kind=kind,
                lines=form.lines(),
                **form.product(),
                **form.label(),
            )
        except DetailError as refused:
            form.take(refused.errors)
        else:
            messages.success(request, f"{product.name} stands in the store.")
            return redirect("product", here.club.slug, product.pk)
    return render(request, "greens/store/add.html", {"form": form, "kind": ProductKind(kind)})


@door(Right.READ)
def product(request, here, product):
    today = here.club.local_today()
    context = {"product": product, "uses": queries.uses(product, today - YEAR, today)}
    context["older"] = queries.entries_on_older_labels(product).count()
    context["stock"] = stock.of_product(product, today)
    context |= {"lines": stock.lines(product, today), "sheets": files.of_product(product)}
    return render(request, "greens/store/product.html", context)


@door(Right.MANAGE)
def change(request, here, product):
    names = ("name", *own_fields(here.club, product.kind))
    form = ChangeProduct(
        request.POST or None, product=product, initial={name: getattr(product, name) for name in names}
    )
    if request.method == "POST" and form.is_valid():
        try:
            actions.change_product(product=product, by=here.member, **form.cleaned_data)
        except DetailError as refused:
            form.take(refused.errors)
        else:
            return redirect("product", here.club.slug, product.pk)
    return render(request, "greens/store/change.html", {"form": form, "product": product})


@door(Right.MANAGE)
def revise(request, here, product):
    today = here.club.local_today()
    form = LabelSheet(
        request.POST or None, kind=product.kind, latest=today, initial=LabelSheet.as_it_stands(product, today)
    )
    if request.method == "POST" and form.is_valid():
        try:
            label = actions.revise_label(product=product, by=here.member, lines=form.lines(), **form.label())
        except DetailError as refused:
            form.take(refused.errors)
        else:
            messages.success(
                request, f"Label {label.revision} is kept; past entries keep the label they had."
            )
            asks = queries.entries_on_older_labels(product).exists()
            return redirect("recompute_label" if asks else "product", here.club.slug, product.pk)
    return render(request, "greens/store/revise.html", {"form": form, "product": product})


@door(Right.MANAGE)
@require_POST
def retire(request, here, product):
    actions.retire_product(product=product, by=here.member, on=here.club.local_today())
    messages.success(request, f"{product.name} is no longer offered; past entries keep it.")
    return redirect("store", here.club.slug)


@door(Right.MANAGE)
@require_POST
def bring_back(request, here, product):
    actions.bring_back_product(product=product, by=here.member)
    messages.success(request, f"{product.name} is offered again.")
    return redirect("product", here.club.slug, product.pk)
