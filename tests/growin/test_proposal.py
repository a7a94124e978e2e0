"""A day proposed for opening: what it would mean, frozen criteria, and how it ends."""

from datetime import date, timedelta

import pytest
from django.urls import reverse

from greens.models import Setting, TrailLine
from growin.actions.programme import issue_programme
from growin.actions.proposal import propose, withdraw
from growin.agronomy.climate import Climate
from growin.agronomy.fields import DetailError
from growin.agronomy.forecast import forecast
from growin.agronomy.in_play import STOP_RULE
from growin.agronomy.opening_early import consequences
from growin.agronomy.programme import OPENING_KEY, GreenFacts
from growin.agronomy.settings_table import default_values
from growin.evidence import verdict_of
from growin.evidence.chance import NO_FORECAST, chance_by, chance_from
from growin.evidence.outlook import TO_READ_AGAIN, outlook
from growin.models import Decision, Proposal
from growin.queries import proposal as queries
from tests.cast import NORMALS_C, laid_green
from tests.growin.ripe import make_ready, read

pytestmark = pytest.mark.django_db
DEPTH = "criterion.rooting_turf.depth_mm"


def address(cast, name: str, *args) -> str:
    return reverse(name, args=[cast.club.slug, *args])


def proposed(cast, days: int = 5, **more) -> Proposal:
    meant = {"pattern": "alternate", "opening_on": cast.today + timedelta(days=days)}
    return propose(establishment=cast.establishment, by=cast.committee, **meant | more)


def shown(cast, row: Proposal, role, as_) -> str:
    return as_(role).get(address(cast, "proposal", row.pk)).content.decode()


def stricter(cast, value: float = 70) -> None:
    Setting.objects.create(
        club=cast.club, key=DEPTH, value=value, by=cast.head, why="deep rootzone", in_force_from=cast.today
    )


def rooting(cast) -> str:
    found = verdict_of(cast.establishment, cast.today).findings
    return next(one.state for one in found if one.criterion == "rooting_turf")


def test_only_the_committee_proposes_and_withdraws_and_every_member_reads(cast, as_):
    row = proposed(cast)
    places = [
        address(cast, "propose", cast.establishment.pk),
        address(cast, "withdraw_proposal", row.pk),
        address(cast, "proposal", row.pk),
    ]
    roles = ("head", "staff", "committee", "adviser", "outsider")
    answers = {role: [as_(role).get(place).status_code for place in places] for role in roles}
    assert answers == {
        "head": [403, 403, 200],
        "staff": [403, 403, 200],
        "committee": [200, 200, 200],
        "adviser": [403, 403, 200],
        "outsider": [404, 404, 404],
    }


def test_a_proposal_keeps_the_verdict_and_stands_in_the_record_of_changes(cast, as_):
    make_ready(cast)
    place = address(cast, "propose", cast.establishment.pk)
    as_("committee").post(place, {"opening_on": "2026-04-30", "pattern": "limited"})
    row = Proposal.objects.get()
    assert (row.opening_on, row.pattern, row.made_on, row.by, row.verdict, row.chance) == (
        date(2026, 4, 30),
        "limited",
        cast.today,
        cast.committee,
        "ready",
        pytest.approx(1),
    )
    assert TrailLine.objects.get(noun="proposal").deed == "Proposed: limited play from Thu 30 April"


WRONG = {
    "gone by": ({"opening_on": "2026-04-15"}, "has gone by"),
    "years ahead": ({"opening_on": "2029-04-15"}, "more than a year away"),
    "before laying": ({"opening_on": "2025-04-15"}, "when it was laid or sown"),
    "no day": ({"opening_on": "soon"}, "This is not a day"),
    "closed": ({"pattern": "closed"}, "Select a valid choice"),
    "nothing": ({"opening_on": "", "pattern": ""}, "This field is required"),
}


@pytest.mark.parametrize(("given", "sentence"), WRONG.values(), ids=WRONG)
def test_what_cannot_be_is_refused_in_a_sentence(cast, as_, given, sentence):
    sent = {"opening_on": "2026-04-30", "pattern": "alternate"} | given
    page = as_("committee").post(address(cast, "propose", cast.establishment.pk), sent)
    assert sentence in page.content.decode()
    assert not Proposal.objects.exists()


def test_one_day_at_a_time(cast, as_):
    proposed(cast)
    sent = {"opening_on": "2026-05-02", "pattern": "full"}
    page = as_("committee").post(address(cast, "propose", cast.establishment.pk), sent)
    assert "Tue 21 April is proposed already" in page.content.decode()
    assert Proposal.objects.count() == 1


def test_a_green_not_laid_yet_has_no_day(cast):
    bare = laid_green(cast.club, "Bare", established_on=None)
    with pytest.raises(DetailError) as refused:
        propose(establishment=bare, by=cast.committee, opening_on=cast.today, pattern="full")
    assert refused.value.errors == {
        "opening_on": "The green must be laid or sown before a day can be proposed."
    }


def test_criteria_stand_as_they_were_while_a_day_is_proposed(cast, as_):
    make_ready(cast)
    row = proposed(cast)
    assert rooting(cast) == "met"
    stricter(cast)
    assert rooting(cast) == "met"
    page = shown(cast, row, "staff", as_)
    assert "Changed since, and not counted here" in page
    assert "deep rootzone" in page
    withdraw(proposal=row, by=cast.committee, why="Not this month.")
    assert rooting(cast) == "not met"


def test_what_held_before_the_proposal_counts_in_it(cast):
    make_ready(cast)
    stricter(cast)
    proposed(cast)
    assert rooting(cast) == "not met"


def test_the_settings_pages_say_that_a_green_keeps_its_criteria(cast, as_):
    make_ready(cast)
    proposed(cast)
    head, said = as_("head"), "Seventh keeps its criteria."
    change = address(cast, "change_setting", DEPTH)
    sent = {"value": "70", "in_force_from": cast.today.isoformat(), "why": "deep rootzone"}
    pages = [
        head.get(address(cast, "settings")),
        head.get(address(cast, "setting", DEPTH)),
        head.get(change),
        head.post(change, sent),
    ]
    assert [said in page.content.decode() for page in pages] == [True] * 4
    assert "No green would be judged otherwise." in pages[-1].content.decode()


def test_readings_must_be_fresher_while_a_day_is_proposed(cast):
    """Fresh for 14 days, for 7 in the fortnight before a proposed day (our judgement)."""
    make_ready(cast, on=cast.today - timedelta(days=10))
    assert rooting(cast) == "met"
    proposed(cast, days=6)
    assert rooting(cast) == "not known"


def test_the_page_says_what_would_be_unmet_and_what_must_be_read_again(cast, as_):
    make_ready(cast, joint_gap=[0, 4, 2, 0, 1] * 4)
    row = proposed(cast, days=12)
    unmet = {one.words: one.state for one in outlook(row, cast.today).unmet}
    assert unmet.pop("Joints") == "not met"
    assert set(unmet.values()) == {TO_READ_AGAIN}
    page = shown(cast, row, "committee", as_)
    assert "None over 3 mm" in page or "none over 3 mm" in page
    assert "Readings of Tue 21 April or later still count on the proposed day." in page


def test_a_gate_that_lies_beyond_the_day_is_unmet(cast):
    """Turf laid in growth: at least 8 weeks down (our judgement)."""
    young = laid_green(cast.club, "Young", established_on=date(2026, 4, 6))
    row = propose(establishment=young, by=cast.committee, opening_on=date(2026, 5, 20), pattern="full")
    first = outlook(row, cast.today).unmet[0]
    assert (first.state, first.sentence) == ("not met", "Not before Mon 1 June (at least 8 weeks down).")


def test_a_gate_that_opens_before_the_day_is_no_hindrance(cast):
    young = laid_green(cast.club, "Young", established_on=date(2026, 4, 6))
    row = propose(establishment=young, by=cast.committee, opening_on=date(2026, 6, 3), pattern="full")
    assert "Time since laying or sowing" not in {one.words for one in outlook(row, cast.today).unmet}


def test_consequences_of_opening_early_name_their_source(cast, as_):
    """USGA 2014: twice as long to heal, young bent goes over to Poa."""
    page = shown(cast, proposed(cast), "committee", as_)
    for one in consequences("fescue/bent"):
        assert one.words in page
        assert f"Published: {one.source}." in page
    assert not any("Poa" in one.words for one in consequences("fine fescue"))


def test_waiting_costs_days_on_the_temporary_green(cast, as_):
    version = issue_programme(establishment=cast.establishment, by=cast.head, on=cast.today)
    opening = version.steps.get(key=OPENING_KEY).likely
    row = proposed(cast, opening_on=opening - timedelta(days=1))
    cast.establishment.forecasts.all().delete()
    told = outlook(row, cast.today).waiting
    assert (told.days, told.ready_on, told.is_forecast) == (1, opening, False)
    assert told.words.startswith("1 day more on the temporary green. The programme plans the opening for")
    later = Proposal(establishment=cast.establishment, opening_on=opening, made_on=cast.today)
    assert outlook(later, cast.today).waiting.words.startswith("No day more: the programme plans")


def test_without_forecast_and_programme_nothing_is_made_up(cast, as_):
    row = proposed(cast)
    cast.establishment.forecasts.all().delete()
    assert chance_by(cast.establishment, row.opening_on).words == NO_FORECAST
    page = shown(cast, row, "committee", as_)
    assert "There is no forecast yet." in page
    assert "Neither a forecast nor a programme says yet how long that would be." in page


def test_a_forecast_gives_the_chance_in_words_with_its_histories():
    facts = GreenFacts(450, "turf_supplied", "fescue/bent", date(2025, 10, 20), 54.0)
    made = forecast(facts, Climate(NORMALS_C), (), (), date(2026, 4, 16), default_values())
    early, late = (chance_from(made, day) for day in (made.p10, made.p90))
    assert "open histor" in early.words
    assert (early.chance < late.chance, early.likely_on, early.as_of) == (True, made.p50, made.as_of)
    assert chance_from(None, made.p50).is_known is False


def test_a_decision_is_filled_in_from_the_proposal_and_settles_it(cast, as_):
    make_ready(cast)
    row, committee = proposed(cast, pattern="limited"), as_("committee")
    place = address(cast, "decide", cast.establishment.pk)
    form = committee.get(place).context["form"]
    assert (form.initial["from_day"], form.initial["pattern"]) == (row.opening_on, "limited")
    sent = {"pattern": "limited", "from_day": row.opening_on, "meeting_on": cast.today}
    committee.post(place, sent | {"present": "M Thorn", "stop_rule": STOP_RULE})
    row.refresh_from_db()
    assert (row.decision, row.ended_on, row.ended_by) == (Decision.objects.get(), cast.today, cast.committee)
    assert row.decision.evidence["values"]["proposed_on"] == row.opening_on.isoformat()
    assert "<strong>Decided.</strong>" in shown(cast, row, "adviser", as_)


def test_the_decision_is_sealed_with_the_frozen_settings(cast, as_):
    make_ready(cast)
    proposed(cast)
    stricter(cast)
    sent = {"pattern": "full", "from_day": cast.today, "meeting_on": cast.today}
    more = {"present": "M Thorn", "stop_rule": STOP_RULE}
    as_("committee").post(address(cast, "decide", cast.establishment.pk), sent | more)
    row = Decision.objects.get()
    assert (row.verdict, row.evidence["settings"][DEPTH]) == ("ready", 50)


def test_withdrawing_twice_is_a_sentence(cast, as_):
    row, committee = proposed(cast), as_("committee")
    place = address(cast, "withdraw_proposal", row.pk)
    assert "at most 300 characters" in committee.post(place, {"why": "x" * 5000}).content.decode()
    committee.post(place, {"why": "Too soon."})
    again = committee.post(place, {"why": "Too soon."})
    assert "This proposal is not open any more" in again.content.decode()
    assert "Withdrawn" in shown(cast, row, "staff", as_)


def test_a_day_that_passed_undecided_is_over_and_another_may_be_proposed(cast, settings):
    row = proposed(cast, days=2)
    settings.FIXED_TODAY = row.opening_on + timedelta(days=3)
    assert queries.open_of(cast.establishment, settings.FIXED_TODAY) is None
    proposed(cast, opening_on=settings.FIXED_TODAY + timedelta(days=7))
    row.refresh_from_db()
    assert (row.ended_on, row.ended_by) == (row.opening_on + timedelta(days=1), None)


def test_the_readiness_page_and_the_decisions_show_the_day_in_mind(cast, as_):
    readiness = address(cast, "readiness", cast.green.pk)
    assert "Propose a day" in as_("committee").get(readiness).content.decode()
    row = proposed(cast)
    page = as_("committee").get(readiness).content.decode()
    assert ("Propose a day" in page, "Proposed: alternate days from" in page) == (False, True)
    listed = as_("staff").get(address(cast, "decisions", cast.establishment.pk)).content.decode()
    assert reverse("proposal", args=[cast.club.slug, row.pk]) in listed


def test_the_page_costs_the_same_with_one_proposal_and_with_many(cast, as_, django_assert_num_queries):
    make_ready(cast)
    staff = as_("staff")
    row = proposed(cast)
    place = address(cast, "proposal", row.pk)
    staff.get(place)
    with django_assert_num_queries(14):
        staff.get(place)
    for name in ("Eighth", "Ninth"):
        more = laid_green(cast.club, name)
        propose(establishment=more, by=cast.committee, opening_on=cast.today, pattern="full")
    stricter(cast)
    read(cast, "hand_pull", [True] * 10, cast.today)
    with django_assert_num_queries(14):
        staff.get(place)
