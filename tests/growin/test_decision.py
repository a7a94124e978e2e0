"""Opening and closing: who may, on what evidence, and what never opens."""

from datetime import date, timedelta

import pytest
from django.urls import reverse

from greens.actions.day_state import record_state
from greens.models import Notice, TrailLine
from growin.actions.decision import close_now, decide
from growin.agronomy.in_play import STOP_RULE
from growin.evidence.sealed import is_untouched
from growin.models import Decision
from growin.queries import decision as queries
from tests.growin.ripe import make_ready

pytestmark = pytest.mark.django_db


def address(cast, name: str, *args) -> str:
    return reverse(name, args=[cast.club.slug, *args])


def said(**more) -> dict:
    usual = {"pattern": "alternate", "from_day": "2026-04-18", "meeting_on": "2026-04-15"}
    return {**usual, "present": "M Thorn, I Rowan", "stop_rule": STOP_RULE, **more}


def enter(cast, client, **more):
    return client.post(address(cast, "decide", cast.establishment.pk), said(**more))


def opened(cast, on: date, pattern: str = "full", **more) -> Decision:
    usual = {"meeting_on": cast.today, "present": "all", "stop_rule": STOP_RULE, "reason": "agreed"}
    return decide(
        establishment=cast.establishment, by=cast.committee, pattern=pattern, from_day=on, **{**usual, **more}
    )


def test_only_the_committee_opens_and_the_head_closes_too(cast, as_):
    places = [address(cast, name, cast.establishment.pk) for name in ("decide", "close_green", "decisions")]
    roles = ("head", "staff", "committee", "adviser", "outsider")
    answers = {role: [as_(role).get(place).status_code for place in places] for role in roles}
    assert answers == {
        "head": [403, 200, 200],
        "staff": [403, 403, 200],
        "committee": [200, 200, 200],
        "adviser": [403, 403, 200],
        "outsider": [404, 404, 404],
    }


def test_a_ready_green_opens_with_the_evidence_as_it_stood(cast, as_):
    make_ready(cast)
    enter(cast, as_("committee"))
    row = Decision.objects.get()
    assert (row.pattern, row.from_day, row.verdict, row.is_against_verdict) == (
        "alternate",
        date(2026, 4, 18),
        "ready",
        False,
    )
    assert set(row.evidence) == {"as_of", "verdict", "findings", "values", "rules", "settings", "forecast"}
    assert row.evidence["rules"]["rooting_turf"]["rooting_depth"]["at_least"] == 50
    assert is_untouched(row)
    assert TrailLine.objects.filter(noun="decision", by=cast.committee).count() == 1


def test_a_digest_shows_that_the_evidence_was_touched(cast):
    make_ready(cast)
    row = opened(cast, cast.today)
    row.evidence["settings"]["criterion.rooting_turf.depth_mm"] = 10
    assert not is_untouched(row)


def test_against_the_verdict_everybody_is_told_why(cast, as_):
    enter(cast, as_("committee"), reason="The county day cannot be moved.")
    told = Notice.objects.filter(to__in=[cast.head, cast.staff, cast.committee, cast.adviser])
    assert (told.count(), Notice.objects.count()) == (4, 4)
    text = told.first().text
    assert "The county day cannot be moved." in text
    assert "although the verdict is “not known”" in text
    assert "Chance to be ready by that day: " in text


def test_with_the_verdict_nobody_is_alarmed(cast, as_):
    make_ready(cast)
    enter(cast, as_("committee"))
    assert Notice.objects.count() == 0


def test_against_the_verdict_it_wants_a_reason_and_is_marked_for_ever(cast, as_):
    page = enter(cast, as_("committee"))
    assert "opening against it needs a reason" in page.content.decode()
    assert Decision.objects.count() == 0
    enter(cast, as_("committee"), reason="The county day cannot be moved.")
    row = Decision.objects.get()
    assert (row.verdict, row.is_against_verdict) == ("not known", True)
    page = as_("adviser").get(address(cast, "decision", row.pk)).content.decode()
    assert "Against the verdict." in page


WRONG = {
    "a meeting to come": ({"meeting_on": "2026-04-17"}, "lies in the future"),
    "before the meeting": ({"from_day": "2026-04-14"}, "lies before the meeting"),
    "years ahead": ({"from_day": "2029-04-14"}, "more than a year away"),
    "nobody present": ({"present": " "}, "This field is required"),
    "no stop rule": ({"stop_rule": ""}, "what would close the green again"),
    "no such pattern": ({"pattern": "moonlight"}, "Select a valid choice"),
    "no day": ({"from_day": "soon"}, "not a day"),
    "a novel": ({"present": "x" * 401}, "at most 400"),
}


@pytest.mark.parametrize(("given", "sentence"), WRONG.values(), ids=WRONG)
def test_what_cannot_be_is_refused_in_a_sentence(cast, as_, given, sentence):
    make_ready(cast)
    page = enter(cast, as_("committee"), **given)
    assert sentence in page.content.decode()
    assert Decision.objects.count() == 0


def test_the_head_greenkeeper_closes_at_once_with_a_reason(cast, as_):
    opened(cast, cast.today - timedelta(days=1), meeting_on=cast.today - timedelta(days=2))
    place = address(cast, "close_green", cast.establishment.pk)
    assert "This field is required" in as_("head").post(place, {"reason": ""}).content.decode()
    as_("head").post(place, {"reason": "Torn joints on the left."})
    play = queries.play_state(cast.establishment, cast.today)
    assert (play.is_open, play.decision.by, play.decision.reason) == (
        False,
        cast.head,
        "Torn joints on the left.",
    )


def test_there_is_nothing_to_close_on_a_closed_green(cast, as_):
    place = address(cast, "close_green", cast.establishment.pk)
    page = as_("head").post(place, {"reason": "to be sure"}).content.decode()
    assert "there is nothing to close" in page


def test_a_closing_ends_an_opening_that_was_still_to_come(cast):
    opened(cast, cast.today + timedelta(days=4))
    close_now(establishment=cast.establishment, by=cast.head, reason="Disease found.")
    play = queries.play_state(cast.establishment, cast.today + timedelta(days=5))
    assert (play.is_open, play.coming) == (False, None)


def test_in_play_since_the_first_open_day_through_changes_of_pattern(cast):
    opened(cast, cast.today, "alternate")
    opened(cast, cast.today + timedelta(days=14), "full")
    play = queries.play_state(cast.establishment, cast.today + timedelta(days=20))
    assert (play.since, play.decision.pattern) == (cast.today, "full")
    assert play.recheck_on == cast.today + timedelta(days=28)


def test_no_decision_opens_a_frosted_green(cast, as_):
    opened(cast, cast.today)
    record_state(green=cast.green, by=cast.staff, on=cast.today, state="frosted")
    play = queries.play_state(cast.establishment, cast.today)
    assert (play.is_open, play.is_shut_today) == (True, True)
    page = as_("committee").get(address(cast, "readiness", cast.green.pk)).content.decode()
    assert "Frosted today: closed for safety." in page


def test_a_decided_day_to_come_asks_for_fresher_readings(cast):
    opened(cast, cast.today + timedelta(days=3))
    assert queries.proposed_days(cast.club, cast.today) == {
        cast.establishment.pk: cast.today + timedelta(days=3)
    }


def test_lists_of_decisions_cost_three_queries(cast, django_assert_num_queries):
    for days in range(3):
        opened(cast, cast.today + timedelta(days=days))
    with django_assert_num_queries(3):
        states = queries.play_states(cast.club, cast.today)
    assert list(states) == [cast.establishment.pk]


def test_a_later_decision_supersedes_the_notice_of_an_earlier_one(cast, as_):
    for reason in ("The county day cannot be moved.", "The captain asked again."):
        enter(cast, as_("committee"), reason=reason)
    page = as_("staff").get(reverse("today", args=[cast.club.slug])).content.decode()
    assert ("The county day" in page, "The captain asked again." in page) == (False, True)


def test_no_meeting_decided_on_a_rebuild_before_it_began(cast, as_):
    page = enter(cast, as_("committee"), meeting_on="2025-01-01", reason="So be it.")
    assert "no meeting decided on this rebuild before" in page.content.decode()


def test_what_is_decided_stands_beside_the_verdict(cast, as_):
    enter(cast, as_("committee"), reason="The county day cannot be moved.")
    page = as_("staff").get(reverse("green", args=[cast.club.slug, cast.green.pk])).content.decode()
    assert "Decided: alternate days from Sat 18 April, against the verdict" in page
