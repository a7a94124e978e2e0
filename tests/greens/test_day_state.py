"""The state of the day: one tap, the last one counts; the last 30 days in words."""

from datetime import timedelta

import pytest
from django.urls import reverse

from greens.actions.day_state import record_state
from greens.models import DayState, TrailLine
from greens.queries import day_state
from growin.agronomy.fields import DetailError
from growin.agronomy.in_play import month_of

pytestmark = pytest.mark.django_db


def tapped(cast, client, **said):
    return client.post(reverse("set_day_state", args=[cast.club.slug, cast.green.pk]), said, follow=True)


def test_the_last_tap_of_the_day_counts(cast, as_):
    for state in ("frosted", "thawing", "rested"):
        tapped(cast, as_("staff"), state=state)
    assert [row.state for row in DayState.objects.all()] == ["rested"]
    assert TrailLine.objects.filter(noun="daystate").first().changes == {"state": ["thawing", "rested"]}


def test_a_green_that_nobody_decided_to_open_is_not_called_open(cast, as_):
    page = tapped(cast, as_("staff"), state="open").content.decode()
    assert "Seventh is not in play: nobody has decided to open it." in page
    assert DayState.objects.count() == 0


def test_only_those_who_log_tap_and_everybody_of_the_club_sees(cast, as_):
    roles = ("head", "staff", "committee", "adviser", "outsider")
    assert [tapped(cast, as_(role), state="open").status_code for role in roles] == [200, 200, 403, 403, 404]
    place = reverse("day_states", args=[cast.club.slug])
    assert [as_(role).get(place).status_code for role in roles] == [200, 200, 200, 200, 404]


def test_an_unknown_state_is_refused_in_a_sentence(cast, as_):
    page = tapped(cast, as_("staff"), state="boggy").content.decode()
    assert "“boggy” is not possible" in page
    assert DayState.objects.count() == 0


def test_tomorrow_has_no_state_yet(cast):
    with pytest.raises(DetailError, match="Fri 17 April 2026 is not possible"):
        record_state(green=cast.green, by=cast.staff, on=cast.today + timedelta(days=1), state="open")


def test_a_note_without_end_is_refused(cast):
    with pytest.raises(DetailError, match="at most 200"):
        record_state(green=cast.green, by=cast.staff, on=cast.today, state="open", note="x" * 201)


def test_thirty_days_are_counted_and_held_against_the_thirty_before(cast):
    for back in range(60):
        state = "frosted" if back % 10 == 0 or (back >= 30 and back % 2) else "open"
        DayState.objects.create(
            green=cast.green, on=cast.today - timedelta(days=back), state=state, by=cast.staff
        )
    month = day_state.months(cast.club, cast.today)[cast.green.pk]
    assert month.counts == {"open": 27, "frosted": 3}
    assert month.words == "Kept off on 3 of 30 days written down. 15 days fewer than the 30 before."


def test_nothing_written_down_is_said_so(cast):
    assert month_of([], cast.today).words == "No state was written down in the last 30 days."


def test_the_page_costs_the_same_for_more_greens(cast, as_, django_assert_num_queries):
    client, place = as_("staff"), reverse("day_states", args=[cast.club.slug])
    with django_assert_num_queries(8):
        client.get(place)
    record_state(green=cast.green, by=cast.staff, on=cast.today, state="open")
    for name in ("Eighth", "Ninth"):
        cast.club.greens.create(name=name)
    with django_assert_num_queries(8):
        client.get(place)
