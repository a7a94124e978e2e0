"""Advice from outside, dated."""

from datetime import date

import pytest
from django.urls import reverse

from greens.models import Advice

pytestmark = pytest.mark.django_db


def given(cast, client, **form):
    address = reverse("advice_new", args=[cast.club.slug, cast.green.pk])
    return client.post(address, {"on": "2026-04-15", "words": "Hold at 6 mm for another fortnight."} | form)


def test_the_advisers_words_stand_in_the_record_with_their_day(cast, as_):
    given(cast, as_("adviser"))
    row = Advice.objects.get()
    assert (row.green, row.by, row.on) == (cast.green, cast.adviser, date(2026, 4, 15))
    page = as_("committee").get(reverse("record", args=[cast.club.slug, cast.green.pk])).content.decode()
    assert "Hold at 6 mm for another fortnight." in page
    assert "Bram Hazel, Wed 15 April 2026" in page


@pytest.mark.parametrize("role", ["head", "staff", "committee"])
def test_only_an_adviser_gives_advice(cast, as_, role):
    assert given(cast, as_(role)).status_code == 403
    assert not Advice.objects.exists()


@pytest.mark.parametrize("form", [{"on": "2026-04-17"}, {"words": ""}, {"words": "x" * 5000}])
def test_advice_that_cannot_be_is_refused(cast, as_, form):
    assert given(cast, as_("adviser"), **form).status_code == 200
    assert not Advice.objects.exists()


def test_what_an_adviser_writes_runs_nothing(cast, as_):
    given(cast, as_("adviser"), words="<script>alert(1)</script>")
    page = as_("head").get(reverse("record", args=[cast.club.slug, cast.green.pk])).content.decode()
    assert "<script>alert" not in page
