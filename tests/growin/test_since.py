"""What has changed since the last meeting, and every decision of the club on one page."""

from datetime import timedelta

import pytest
from django.urls import reverse

from greens.models import Advice, Setting
from growin.actions.decision import close_now
from growin.evidence.since import since_meeting
from tests.growin.ripe import make_ready, read
from tests.growin.test_decision import opened

pytestmark = pytest.mark.django_db


@pytest.fixture
def met(cast, settings):
    """A ready green opened at a meeting on 16 April; ten days have passed since."""
    make_ready(cast)
    decision = opened(cast, cast.today)
    settings.FIXED_TODAY = cast.today + timedelta(days=10)
    return decision


def later(cast, days: int = 10):
    return cast.today + timedelta(days=days)


def page(cast, client) -> str:
    return client.get(reverse("decisions", args=[cast.club.slug, cast.establishment.pk])).content.decode()


def test_before_any_meeting_there_is_nothing_since(cast, as_):
    assert since_meeting(cast.establishment, cast.today) is None
    assert "What has changed since" not in page(cast, as_("committee"))


def test_each_criterion_that_turned_is_told_then_and_now(cast, met):
    read(cast, "joint_gap", [0, 5, 0, 0] * 5, later(cast, 9))
    told = since_meeting(cast.establishment, later(cast))
    turned = {one.words: (one.before, one.after) for one in told.turned}
    assert turned["Joints"] == ("met", "not met")
    assert (told.meeting, told.verdict.state) == (met, "not ready")
    assert told.same + len(turned) == len(told.verdict.findings)


def test_readings_thresholds_advice_and_decisions_since_are_listed(cast, met, as_):
    read(cast, "lip", [0] * 20, later(cast, 8))
    Advice.objects.create(green=cast.green, by=cast.adviser, on=later(cast, 6), words="Rest it on Mondays.")
    Setting.objects.create(
        club=cast.club, by=cast.head, key="criterion.rooting_turf.depth_mm", value=40, why="shallow build",
        in_force_from=later(cast, 5),
    )  # fmt: skip
    closed = close_now(establishment=cast.establishment, by=cast.head, reason="Torn joints.")
    told = since_meeting(cast.establishment, later(cast))
    assert [one.measure for one in told.readings] == ["lip"]
    assert [(one.row.value, one.is_looser) for one in told.changes] == [(40, True)]
    assert [one.words for one in told.advice] == ["Rest it on Mondays."]
    assert told.decisions == [closed]
    shown = page(cast, as_("committee"))
    assert "What has changed since the meeting of Thu 16 April 2026" in shown
    assert all(one in shown for one in ("Rest it on Mondays.", "shallow build", "(loosened)", "Closed from"))


def test_the_page_costs_the_same_however_much_has_changed(cast, met, as_, django_assert_num_queries):
    staff = as_("staff")
    page(cast, staff)
    with django_assert_num_queries(22):
        page(cast, staff)
    for day in range(1, 8):
        read(cast, "lip", [0] * 20, later(cast, day))
    with django_assert_num_queries(22):
        page(cast, staff)


def test_every_decision_of_the_club_stands_on_one_page_and_nobody_elses(cast, as_):
    opened(cast, cast.today)
    opened(cast, cast.today + timedelta(days=7), "alternate")
    place = reverse("all_decisions", args=[cast.club.slug])
    shown = as_("staff").get(place).content.decode()
    assert "Seventh: full play from Thu 16 April 2026" in shown
    assert "Seventh: alternate days from Thu 23 April 2026" in shown
    assert as_("outsider").get(place).status_code == 404
    assert place in as_("staff").get(reverse("club", args=[cast.club.slug])).content.decode()
    readiness = reverse("readiness", args=[cast.club.slug, cast.green.pk])
    assert place in as_("staff").get(readiness).content.decode()


@pytest.mark.parametrize("asked", ["", "999", "-1", "many"])
def test_any_page_number_answers(cast, as_, asked):
    assert (
        as_("staff").get(reverse("all_decisions", args=[cast.club.slug]), {"page": asked}).status_code == 200
    )


def test_all_decisions_cost_the_same_for_one_and_for_many(cast, as_, django_assert_num_queries):
    staff, place = as_("staff"), reverse("all_decisions", args=[cast.club.slug])
    opened(cast, cast.today)
    staff.get(place)
    with django_assert_num_queries(5):
        staff.get(place)
    for days in range(1, 6):
        opened(cast, cast.today + timedelta(days=days))
    with django_assert_num_queries(5):
        staff.get(place)
