"""The store: products, labels as printed, what they contain."""

from decimal import Decimal

import pytest
from django.urls import reverse

from greens.actions import store
from greens.models import Label, Product, TrailLine
from growin.agronomy.fields import DetailError

pytestmark = pytest.mark.django_db


def bag(cast, name="Spring 12-5-9", **more):
    values = {"kind": "granular", "lines": {"N_total": Decimal(12), "P2O5": Decimal(5), "K2O": Decimal(9)}}
    return store.add_product(
        club=cast.club, by=cast.head, name=name, from_day=cast.today, **{**values, **more}
    )


def form(**more):
    return {
        "name": "Spring 12-5-9",
        "from_day": "2026-04-16",
        "N_total": "12",
        "P2O5": "5",
        "K2O": "9",
        **more,
    }


def test_a_bag_is_entered_as_printed_and_shown_in_elements(cast, as_):
    # Regulation (EC) 2003/2003: P = P2O5 x 0.436, K = K2O x 0.830; by hand 5 x 4.3643 and 9 x 8.3015.
    address = reverse("add_product", args=[cast.club.slug, "granular"])
    page = as_("head").post(address, form(), follow=True).content.decode()
    label = Label.objects.get(product__name="Spring 12-5-9")
    assert label.contents == {"N": Decimal(120), "P": Decimal("21.8215"), "K": Decimal("74.7135")}
    assert "21.82" in page
    assert "74.71" in page


def test_a_liquid_by_weight_counts_with_its_density(cast):
    # Purdue University Extension: g a litre = per cent x 10 x kg/l; by hand 20 x 10 x 1.25.
    lines = {"N_total": Decimal(20)}
    more = {"kind": "liquid", "lines": lines, "unit": "ml", "basis": "w/w", "density_kg_l": Decimal("1.25")}
    assert bag(cast, **more).newest_label.contents == {"N": Decimal(250)}


def test_parts_over_the_whole_are_refused_with_a_sentence(cast, as_):
    address = reverse("add_product", args=[cast.club.slug, "granular"])
    page = as_("head").post(address, form(N_total="60", P2O5="30", K2O="20"))
    assert "parts of the label together, %: 110" in page.content.decode()
    assert Product.objects.count() == 0


@pytest.mark.parametrize(
    ("wrong", "sentence"),
    [
        ({"N_total": "twelve"}, "is not a number"),
        ({"N_total": "-3"}, "is not possible"),
        ({"N_total": "120"}, "is not possible"),
        ({"N_total": "8", "N_urea": "12"}, "forms of nitrogen"),
        ({"P": "3"}, "only one of the two"),
        ({"name": "x" * 5000}, "at most 80 characters"),
        ({"from_day": "2027-01-01"}, "lies in the future"),
    ],
)
def test_a_label_that_cannot_be_is_refused_and_nothing_is_kept(cast, as_, wrong, sentence):
    address = reverse("add_product", args=[cast.club.slug, "granular"])
    page = as_("head").post(address, form(**wrong))
    assert page.status_code == 200
    assert sentence in page.content.decode()
    assert Product.objects.count() == 0


def test_a_liquid_by_weight_without_density_is_asked_for_it(cast, as_):
    address = reverse("add_product", args=[cast.club.slug, "liquid"])
    page = as_("head").post(address, form(unit="ml", basis="w/w")).content.decode()
    assert "what does a litre weigh" in page
    assert Product.objects.count() == 0


def test_a_name_stands_once_in_a_store(cast):
    bag(cast)
    with pytest.raises(DetailError, match="already has"):
        bag(cast, name="spring 12-5-9")


def test_another_clubs_product_does_not_exist_here(cast, as_):
    theirs = store.add_product(
        club=cast.outsider.club, by=cast.outsider, kind="seed", name="Bent", lines={}, from_day=cast.today
    )
    names = ["product", "change_product", "revise_label", "retire_product", "recompute_label"]
    answers = [
        as_("head").post(reverse(name, args=[cast.club.slug, theirs.pk])).status_code for name in names
    ]
    assert answers == [404] * 5


def test_greenstaff_read_the_store_and_only_the_head_greenkeeper_writes(cast, as_):
    product = bag(cast)
    staff, slug = as_("staff"), cast.club.slug
    assert staff.get(reverse("store", args=[slug])).status_code == 200
    assert staff.get(reverse("product", args=[slug, product.pk])).status_code == 200
    assert staff.post(reverse("add_product", args=[slug, "granular"]), form()).status_code == 403
    assert staff.post(reverse("retire_product", args=[slug, product.pk])).status_code == 403


def test_a_retired_product_is_no_longer_offered_and_can_come_back(cast, as_):
    product = bag(cast)
    head, slug = as_("head"), cast.club.slug
    head.post(reverse("retire_product", args=[slug, product.pk]))
    product.refresh_from_db()
    assert product.retired_on == cast.today
    head.post(reverse("bring_back_product", args=[slug, product.pk]))
    product.refresh_from_db()
    assert product.retired_on is None
    deeds = TrailLine.objects.filter(noun="product").values_list("deed", flat=True)
    assert list(deeds) == [
        "Brought Spring 12-5-9 back into use",
        "Took Spring 12-5-9 out of use",
        "Put Spring 12-5-9 into the store",
    ]


def test_the_store_takes_as_many_queries_for_five_products_as_for_one(cast, as_, django_assert_num_queries):
    head, address = as_("head"), reverse("store", args=[cast.club.slug])
    bag(cast)
    with django_assert_num_queries(8):
        head.get(address)
    for number in range(4):
        bag(cast, name=f"Bag {number}")
    with django_assert_num_queries(8):
        head.get(address)
