"""A new label: past entries keep theirs, and are worked out again only where somebody asks for it."""

from decimal import Decimal

import pytest
from django.urls import reverse

from greens.actions import store
from greens.actions.diary import record_work
from greens.models import Entry, TrailLine

pytestmark = pytest.mark.django_db


@pytest.fixture
def fed(cast):
    """An entry of 4.5 kg on 450 m² from a bag that was copied as 12 % N."""
    product = store.add_product(
        club=cast.club,
        by=cast.head,
        kind="granular",
        name="Spring feed",
        lines={"N_total": Decimal(12)},
        from_day=cast.today,
    )
    return record_work(
        club=cast.club,
        by=cast.staff,
        done_by=cast.staff,
        kind="feed",
        on=cast.today,
        greens=[cast.green],
        products=[(product.newest_label, 4_500)],
    )


def product_of(entry: Entry):
    return entry.products.get().label.product


def nitrogen_mg_m2(entry: Entry) -> int:
    return Entry.objects.get(pk=entry.pk).nutrients[0].mg_m2


def revise(cast, as_, fed):
    address = reverse("revise_label", args=[cast.club.slug, product_of(fed).pk])
    return as_("head").post(address, {"from_day": "2026-04-16", "N_total": "14"})


def test_a_new_label_asks_and_changes_nothing_by_itself(cast, as_, fed):
    answer = revise(cast, as_, fed)
    recompute = reverse("recompute_label", args=[cast.club.slug, product_of(fed).pk])
    assert answer.headers["Location"] == recompute
    page = as_("head").get(recompute).content.decode()
    assert "Work past entries out again?" in page
    assert "Spring feed 4.5 kg" in page
    assert nitrogen_mg_m2(fed) == 1_200
    assert TrailLine.objects.get(deed="Label 2 of Spring feed").changes == {"N_total": [12.0, 14.0]}


def test_ticked_entries_are_worked_out_again_and_keep_their_old_figures(cast, as_, fed):
    revise(cast, as_, fed)
    recompute = reverse("recompute_label", args=[cast.club.slug, product_of(fed).pk])
    as_("head").post(recompute, {"entries": [fed.pk]})
    assert nitrogen_mg_m2(fed) == 1_400
    revision = Entry.objects.get(pk=fed.pk).revisions.get()
    assert dict(revision.as_it_was["reads"])["Nutrients"] == "N 12 kg/ha (0.54 kg)"
    assert TrailLine.objects.filter(deed="Worked out again: Fed, Thu 16 April").count() == 1
    assert "No entry would read otherwise" in as_("head").get(recompute).content.decode()


def test_new_entries_take_the_new_label(cast, as_, fed):
    revise(cast, as_, fed)
    newest = store.store.labels_in_use(cast.club).get()
    assert (newest.revision, newest.contents) == (2, {"N": Decimal(140)})


def test_a_new_area_asks_too(cast, as_, fed):
    cast.green.area_dm2 = 90_000
    cast.green.save()
    recompute = reverse("recompute_area", args=[cast.club.slug, cast.green.pk])
    assert "Seventh, 450 m²" in as_("head").get(recompute).content.decode()
    assert nitrogen_mg_m2(fed) == 1_200
    as_("head").post(recompute, {"entries": [fed.pk]})
    assert nitrogen_mg_m2(fed) == 600


def test_entries_of_another_club_are_never_worked_out_again(cast, as_, fed):
    theirs = record_work(
        club=cast.outsider.club,
        by=cast.outsider,
        done_by=cast.outsider,
        kind="cut",
        on=cast.today,
        greens=[cast.other_green],
        details={"height_mm": 5},
    )
    revise(cast, as_, fed)
    recompute = reverse("recompute_label", args=[cast.club.slug, product_of(fed).pk])
    page = as_("head").post(recompute, {"entries": [theirs.pk]})
    assert "not one of the available choices" in page.content.decode()
    assert Entry.objects.get(pk=theirs.pk).revision == 1


def test_a_label_is_known_by_its_nitrogen_even_where_only_the_forms_are_printed(cast):
    label = store.add_product(
        club=cast.club,
        by=cast.head,
        kind="granular",
        name="Slow 20-0-8",
        lines={"N_slow": Decimal(12), "N_urea": Decimal(8), "K2O": Decimal(8)},
        from_day=cast.today,
    ).newest_label
    assert label.short_words == "N 20 %, K₂O 8 %"
