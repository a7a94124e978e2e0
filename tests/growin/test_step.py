"""The form of a step that is changed by hand."""

from datetime import date

import pytest
from django.urls import reverse

from greens.actions.people import NotPossible
from growin.actions.programme import add_step, issue_programme

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


@pytest.mark.parametrize(
    ("step", "sentence"),
    [
        ({"kind": "cut", "amount": 80, "unit": "mm"}, "80 mm is no height of cut for a green"),
        ({"kind": "cut", "amount": 8, "unit": "kg/m²"}, "The amount of such a step is in mm"),
        ({"kind": "feed", "amount": 25, "unit": "mm"}, "The amount of such a step is in kg N/ha"),
        ({"kind": "roll", "likely": date(2099, 1, 1)}, "over three years away|more than three years away"),
        ({"kind": "cut", "amount": 8, "unit": "mm", "likely": date(2025, 9, 20)}, "Nothing grew before"),
    ],
)
def test_what_nobody_can_mean_is_not_planned(cast, step, sentence):
    issue_programme(establishment=cast.establishment, by=cast.head, on=cast.today)
    known = {"likely": date(2026, 5, 1), "what": "By hand", "why": "Trial", "is_meant": True}
    with pytest.raises(NotPossible, match=sentence):
        add_step(establishment=cast.establishment, by=cast.head, on=cast.today, **known | step)
