"""What became of a step: done as planned or otherwise, not done, put off."""

from datetime import date, timedelta

import pytest
from django.urls import reverse

from greens.actions.people import NotPossible
from greens.actions.store import add_product
from greens.models import Entry, EntryNutrient, TrailLine
from growin.actions.answer import not_done, put_off, stopped_by_weather, tick
from growin.actions.diary import log_work
from growin.actions.done import done_as_planned, walked
from growin.actions.programme import drop_step, issue_programme
from growin.models import StepAnswer
from growin.queries import diary
from growin.queries import programme as queries

pytestmark = pytest.mark.django_db
FEED = "feed-02"


@pytest.fixture
def drawn(cast):
    return issue_programme(establishment=cast.establishment, by=cast.head, on=cast.today)


@pytest.fixture
def where(cast, drawn) -> dict:
    return {"establishment": cast.establishment, "by": cast.staff, "on": cast.today}


@pytest.fixture
def feed(cast):
    """A granular 12-0-9."""
    lines = {"N_total": "12", "K2O": "9"}
    return add_product(
        club=cast.club,
        by=cast.head,
        kind="granular",
        name="Heath 12-0-9",
        lines=lines,
        from_day=date(2026, 1, 1),
    )


def state(cast, key: str, on: date | None = None) -> str:
    return queries.step(cast.establishment, key, on or cast.today).state


def test_done_as_planned_keeps_the_planned_amount_in_the_diary(cast, where, feed):
    """12 kg N/ha on 450 m² is 540 g N, that is 4.5 kg of a 12 % feed: extension fertiliser arithmetic."""
    entry = done_as_planned(**where, key=FEED)
    product = entry.products.get()
    assert (product.label.product, product.amount, product.label.unit) == (feed, 4500, "g")
    assert EntryNutrient.objects.get(product=product, element="N").mg_m2 == 1200
    answer = StepAnswer.objects.get(key=FEED)
    assert (answer.kind, answer.entry, answer.differs, answer.by) == ("done", entry, "", cast.staff)
    assert state(cast, FEED) == "done"


def test_with_two_feeds_or_none_in_the_store_a_tap_is_not_enough(cast, where):
    with pytest.raises(NotPossible):
        done_as_planned(**where, key=FEED)
    for name in ("Heath 12-0-9", "Spring 8-0-0"):
        add_product(
            club=cast.club,
            by=cast.head,
            kind="granular",
            name=name,
            lines={"N_total": "8"},
            from_day=cast.today,
        )
    with pytest.raises(NotPossible) as refusal:
        done_as_planned(**where, key=FEED)
    assert str(refusal.value).endswith("wants more than a tap: log it with its particulars.")
    assert not Entry.objects.exists()


def test_a_cut_done_as_planned_is_logged_at_its_height(cast, where):
    entry = done_as_planned(**where, key="cut-ladder-5.5")
    assert (entry.kind, entry.details) == ("cut", {"height_mm": 5.5})


def test_a_second_tap_keeps_no_second_entry(cast, where, feed):
    assert done_as_planned(**where, key=FEED) == done_as_planned(**where, key=FEED)
    assert walked(**where) == walked(**where)
    assert sorted(Entry.objects.values_list("kind", flat=True)) == ["feed", "walk"]


def test_what_was_done_differently_is_said(cast, where, feed):
    entry = done_as_planned(**where, key=FEED)
    EntryNutrient.objects.filter(product__entry=entry, element="N").update(mg_m2=800)
    late = where | {"on": date(2026, 4, 30)}
    answer = tick(**late, key=FEED, entry=entry)
    assert answer.differs == "8 kg N/ha, planned 12 kg N/ha; 9 days later than its latest day"


def test_not_done_because_of_the_weather_counts_as_an_answer(cast, where):
    not_done(**where, key=FEED, reason="weather")
    assert state(cast, FEED) == "not done"
    line = TrailLine.objects.filter(noun="stepanswer").get()
    assert line.changes == {"answer": [None, "Not done Thu 16 April: weather"]}
    with pytest.raises(NotPossible):
        not_done(**where, key=FEED, reason="  ")


def test_what_the_weather_stopped_is_asked_for_again_on_the_morrow(cast, where):
    stopped_by_weather(**where, key=FEED)
    assert [state(cast, FEED, cast.today + timedelta(days=n)) for n in (0, 1)] == ["put off", "due"]


def test_weather_never_undoes_what_was_done(cast, where, feed):
    entry = done_as_planned(**where, key=FEED)
    assert stopped_by_weather(**where, key=FEED).entry == entry
    assert state(cast, FEED) == "done"


def test_put_off_is_asked_again_on_its_day(cast, where):
    put_off(**where, key=FEED, until=cast.today + timedelta(days=4), reason="east wind")
    assert [state(cast, FEED, cast.today + timedelta(days=n)) for n in (0, 3)] == ["put off", "put off"]
    due = queries.due(cast.club, cast.today + timedelta(days=4))
    assert FEED in {one.step.key for one in due}
    with pytest.raises(NotPossible) as refusal:
        put_off(**where, key=FEED, until=cast.today)
    assert str(refusal.value) == "Thu 16 April is not after Thu 16 April; choose a later day."


def test_a_later_answer_replaces_an_earlier_one(cast, where):
    put_off(**where, key=FEED, until=cast.today + timedelta(days=4), reason="east wind")
    tick(**where, key=FEED)
    answer = StepAnswer.objects.get()
    assert (answer.kind, answer.until, answer.reason) == ("done", None, "")
    assert TrailLine.objects.filter(noun="stepanswer").first().changes == {
        "answer": ["Put off Thu 16 April until Mon 20 April: east wind", "Done Thu 16 April"]
    }


def test_an_entry_taken_back_answers_nothing(cast, where, feed):
    entry = done_as_planned(**where, key=FEED)
    Entry.objects.filter(pk=entry.pk).update(taken_back_at="2026-04-16T10:00Z")
    assert state(cast, FEED) == "due"


def test_only_steps_that_the_programme_has_are_answered(cast, where):
    drop_step(**where | {"by": cast.head}, key="roll-04")
    for key in ("roll-04", "no-such-step"):
        with pytest.raises(NotPossible):
            tick(**where, key=key)
    assert not StepAnswer.objects.exists()


def test_walked_all_well_answers_the_walk_of_the_week(cast, where):
    entry = walked(**where)
    assert StepAnswer.objects.get().key == "walk-2026-W16"
    assert entry.kind == "walk"


def test_an_entry_is_offered_the_nearest_open_step(cast, where):
    found = queries.matches([cast.establishment], "feed", cast.today)
    assert [one.step.key for one in found][:2] == ["feed-02", "feed-03"]
    tick(**where, key="feed-02")
    assert "feed-02" not in {
        one.step.key for one in queries.matches([cast.establishment], "feed", cast.today)
    }


def address(cast, name: str, key: str = FEED) -> str:
    return reverse(name, args=[cast.club.slug, cast.green.pk, key])


def test_staff_answer_and_the_committee_does_not(cast, as_, drawn, feed):
    for name in ("as_planned", "weather_step", "tick_step", "not_done_step", "put_off_step"):
        assert as_("committee").post(address(cast, name)).status_code == 403
        assert as_("adviser").post(address(cast, name)).status_code == 403
    assert not StepAnswer.objects.exists()
    as_("staff").post(address(cast, "as_planned"))
    assert StepAnswer.objects.get().entry.logged_by == cast.staff


@pytest.mark.parametrize(
    ("name", "form", "sentence"),
    [
        ("tick_step", {"on": "2027-01-01"}, "lies in the future"),
        ("tick_step", {"on": "2026-04-16", "entry": "999"}, "Select a valid choice"),
        ("put_off_step", {"until": "2026-04-16"}, "lies before Fri 17 April 2026"),
        ("put_off_step", {"until": "never"}, "This is not a day"),
        ("not_done_step", {"words": ""}, "This field is required"),
        ("not_done_step", {"reason": "other"}, "Say the reason in a few words"),
        ("not_done_step", {"reason": "other", "words": "x" * 5000}, "at most 150 characters"),
    ],
)
def test_a_bad_answer_is_a_sentence_and_keeps_nothing(cast, as_, drawn, name, form, sentence):
    answer = as_("staff").post(address(cast, name), form)
    assert (answer.status_code, sentence in answer.content.decode()) == (200, True)
    assert not StepAnswer.objects.exists()


def test_another_clubs_entry_cannot_answer(cast, as_, drawn):
    theirs = Entry.objects.create(
        club=cast.outsider.club, kind="feed", on=cast.today, done_by=cast.outsider, logged_by=cast.outsider
    )
    theirs.lines.create(
        green=cast.other_green, establishment=cast.other_establishment, kind=theirs.kind, on=theirs.on
    )
    answer = as_("staff").post(address(cast, "tick_step"), {"on": "2026-04-16", "entry": theirs.pk})
    assert "Select a valid choice" in answer.content.decode()
    assert not StepAnswer.objects.exists()


def test_a_tap_returns_to_its_page_and_never_to_another_site(cast, as_, drawn):
    staff, here = as_("staff"), reverse("programme", args=[cast.club.slug, cast.green.pk])
    assert staff.post(address(cast, "weather_step"), {"back": here}).headers["Location"] == here
    elsewhere = staff.post(address(cast, "weather_step"), {"back": "https://example.org/"})
    assert elsewhere.headers["Location"] == reverse("today", args=[cast.club.slug])


def test_nothing_was_done_before_there_was_any_turf(cast, where):
    cast.establishment.established_on = date(2026, 4, 10)
    cast.establishment.save()
    issue_programme(establishment=cast.establishment, by=cast.head, on=cast.today)
    with pytest.raises(NotPossible, match="was laid on Fri 10 April 2026; this step comes after"):
        tick(**where | {"on": date(2026, 4, 9)}, key=FEED)
    with pytest.raises(NotPossible, match="nothing was done before that day"):
        tick(**where | {"on": date(1900, 1, 1)}, key=FEED)


def test_what_is_put_off_for_ever_is_not_done(cast, where):
    with pytest.raises(NotPossible, match="more than half a year away"):
        put_off(**where, key=FEED, until=date(2099, 1, 1))


def test_a_feed_that_names_no_product_answers_no_plan(cast, where):
    said = {"kind": "feed", "on": cast.today, "done_by": cast.staff, "greens": [cast.green], "details": {}}
    log_work(club=cast.club, by=cast.staff, answers=[(cast.establishment, FEED)], **said)
    assert not StepAnswer.objects.exists()


def test_one_entry_answers_one_step_of_a_green(cast, where, feed):
    entry = done_as_planned(**where, key=FEED)
    assert diary.offered_to(diary.one(cast.club, entry.pk)) == []
