"""The form of a step that is changed by hand."""

import pytest
from django.urls import reverse

from growin.actions.programme import issue_programme

pytestmark = pytest.mark.django_db


def test_a_step_is_changed_from_the_amount_as_people_write_it(cast, as_):
    drawn = issue_programme(establishment=cast.establishment, by=cast.head, on=cast.today)
    step = drawn.steps.filter(unit="kg N/ha").first()
    address = reverse("change_step", args=[cast.club.slug, cast.green.pk, step.key])
    assert f'name="amount" value="{step.amount:g}"' in as_("head").get(address).content.decode()


def test_a_step_without_an_amount_is_not_asked_for_one(cast, as_, caplog):
    drawn = issue_programme(establishment=cast.establishment, by=cast.head, on=cast.today)
    step = drawn.steps.filter(unit="", amount=None).first()
    page = as_("head").get(reverse("change_step", args=[cast.club.slug, cast.green.pk, step.key]))
    assert 'name="amount"' not in page.content.decode()
    assert caplog.records == []
