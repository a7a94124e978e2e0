"""Many greens at once: the same work in one tap, the walk of all, what the weather stopped, one form."""

from datetime import date, timedelta
from uuid import uuid4

import pytest

from greens.models import Entry
from growin.actions.done import done_as_planned
from growin.actions.programme import add_step, drop_step, issue_programme
from growin.models import StepAnswer
from growin.queries import programme, today
from tests.cast import laid_green
from tests.entries import at, fed, label

pytestmark = [pytest.mark.django_db, pytest.mark.every_database]
MATCH_FEED, MATCH_ROLL = "Feed for the match", "Roll for the match"
ALL = ["Seventh", "Fourth", "Ninth"]


@pytest.fixture
def rebuilds(cast):
    """Seventh of 450 m², Fourth of 540 m², Ninth of 360 m²: a feed of 20 kg N/ha, a roll and a fence each."""
    others = [laid_green(cast.club, name, area_m2=area) for name, area in (("Fourth", 540), ("Ninth", 360))]
    found = [cast.establishment, *others]
    for one in found:
        issue_programme(establishment=one, by=cast.head, on=cast.today)
        where = {"establishment": one, "by": cast.head, "on": cast.today, "likely": cast.today}
        add_step(**where, kind="feed", what=MATCH_FEED, amount=20, unit="kg N/ha")
        add_step(**where, kind="roll", what=MATCH_ROLL)
        add_step(**where, kind="fence", what="Move the ropes")
    return found


@pytest.fixture
def bag(cast):
    return label(cast, "Match 10-0-0", lines={"N_total": 10})


def day(cast):
    return today.of_club(cast.club, cast.today)


def group(cast, kind: str):
    return next(one for one in day(cast).together if one.step.kind == kind and one.step.by_hand)


def tapped(cast, client, name: str, **more):
    sent = {"client_id": str(uuid4()), "on": cast.today.isoformat()} | more
    return client.post(at(cast, name), sent, follow=True).content.decode()


def steps(cast, kind: str) -> list[int]:
    """The rows that a tap for all sends."""
    return [one.step.pk for one in group(cast, kind).lines]


def key_of(rebuild) -> str:
    return programme.steps_in_force([rebuild]).get(what=MATCH_FEED).key


def due(cast, what: str, on: date | None = None) -> list[str]:
    """Greens on which a kind of work, or a step of that name, is due."""
    asked = programme.due(cast.club, on or cast.today)
    return [one.green.name for one in asked if what in (one.step.kind, one.step.what)]


def test_a_feed_due_on_three_greens_is_one_line_with_each_greens_amount(cast, as_, rebuilds, bag):
    """20 kg N/ha are 2 g N or 20 g of a 10 % feed on each m²: 9, 10.8 and 7.2 kg, by hand."""
    one = group(cast, "feed")
    assert one.shares == ["Match 10-0-0: Seventh 9 kg, Fourth 10.8 kg, Ninth 7.2 kg; 27 kg in all"]
    page = as_("staff").get(at(cast, "today")).content.decode()
    assert "Fed, 3 greens" in page
    assert one.shares[0] in page


def test_what_is_due_on_three_greens_is_done_as_planned_in_one_tap(cast, as_, rebuilds, bag):
    page = tapped(cast, as_("staff"), "done_together", steps=steps(cast, "feed"))
    entry = Entry.objects.get(kind="feed")
    assert (entry.products.get().amount, entry.lines.count(), entry.done_by) == (27_000, 3, cast.staff)
    assert StepAnswer.objects.filter(entry=entry, kind="done").count() == 3
    assert ("Kept." in page, "Take back" in page, due(cast, MATCH_FEED)) == (True, True, [])
    assert entry.shares == ["Match 10-0-0: Seventh 9 kg, Fourth 10.8 kg, Ninth 7.2 kg; 27 kg in all"]


def test_the_same_tap_sent_twice_is_kept_once(cast, as_, rebuilds, bag):
    staff, sent = as_("staff"), {"steps": steps(cast, "feed"), "client_id": str(uuid4())}
    for _ in range(2):
        tapped(cast, staff, "done_together", **sent)
    assert Entry.objects.filter(kind="feed").count() == 1


def test_a_programme_drawn_anew_meanwhile_loses_nothing_of_a_tap_for_all(cast, as_, rebuilds, bag):
    shown = steps(cast, "feed")
    issue_programme(establishment=rebuilds[0], by=cast.head, on=cast.today)
    drop_step(establishment=rebuilds[1], key=key_of(rebuilds[1]), by=cast.head, on=cast.today)
    tapped(cast, as_("staff"), "done_together", steps=shown)
    entry = Entry.objects.get(kind="feed")
    assert (entry.products.get().amount, entry.lines.count()) == (27_000, 3)
    assert {one.establishment for one in StepAnswer.objects.filter(entry=entry)} == {rebuilds[0], rebuilds[2]}


def test_what_a_colleague_did_meanwhile_is_not_done_twice(cast, as_, rebuilds, bag):
    shown = steps(cast, "feed")
    done_as_planned(establishment=rebuilds[0], key=key_of(rebuilds[0]), by=cast.head, on=cast.today)
    tapped(cast, as_("staff"), "done_together", steps=shown)
    entry = Entry.objects.filter(kind="feed").latest("pk")
    assert [one.green.name for one in entry.lines.all()] == ["Fourth", "Ninth"]


def test_steps_that_are_not_alike_are_never_one_entry(cast, as_, rebuilds, bag):
    roll = programme.steps_in_force(rebuilds[:1]).get(what=MATCH_ROLL)
    page = tapped(cast, as_("staff"), "done_together", steps=[roll.pk, *steps(cast, "feed")[1:]])
    assert "log it with its particulars" in page
    assert not Entry.objects.exists()


def test_without_one_product_that_fits_it_wants_more_than_a_tap(cast, as_, rebuilds):
    page = tapped(cast, as_("staff"), "done_together", steps=steps(cast, "feed"))
    assert "Fed: log it with its particulars." in page
    assert not Entry.objects.exists()


def test_walked_all_is_one_entry_and_ticks_every_walk(cast, as_, rebuilds):
    page = tapped(cast, as_("staff"), "walk_all")
    entry = Entry.objects.get()
    assert (entry.kind, entry.lines.count(), due(cast, "walk")) == ("walk", 3, [])
    assert ("Walked all, all well" in page, "Walked it, all well: Seventh" in page) == (False, True)
    assert "Every green was walked already." in tapped(cast, as_("staff"), "walk_all")


def test_what_the_weather_stopped_is_asked_for_again_on_the_morrow(cast, as_, rebuilds):
    tapped(cast, as_("staff"), "weather_stopped")
    entry = Entry.objects.get()
    assert (entry.kind, entry.lines.count()) == ("not_done", 3)
    assert [due(cast, what) for what in ("feed", "roll", "fence")] == [[], [], ALL]
    assert due(cast, MATCH_ROLL, entry.on + timedelta(days=1)) == ALL
    assert {one.reason for one in StepAnswer.objects.filter(entry=entry)} == {"weather"}


def test_what_the_weather_stopped_can_be_taken_back(cast, as_, rebuilds):
    staff, before = as_("staff"), programme.due(cast.club, cast.today)
    assert "asked for again tomorrow" in tapped(cast, staff, "weather_stopped")
    answer = staff.post(at(cast, "take_back_entry", Entry.objects.get().pk), {"back": at(cast, "today")})
    assert answer.headers["Location"] == at(cast, "today")
    assert programme.due(cast.club, cast.today) == before


def test_while_a_height_is_put_off_no_lower_one_is_asked(cast, as_, rebuilds):
    assert due(cast, "cut") == ALL
    tapped(cast, as_("staff"), "weather_stopped")
    assert due(cast, "cut") == []


@pytest.mark.parametrize(
    ("wrong", "sentence"),
    [
        ({"on": "2026-04-17"}, "lies in the future"),
        ({"on": "someday"}, "This is not a day"),
        ({"client_id": "abc"}, "valid UUID"),
        ({"steps": ["99999", "seven"]}, "it was answered meanwhile"),
    ],
)
def test_a_tap_that_cannot_be_is_refused_in_words(cast, as_, rebuilds, wrong, sentence):
    assert sentence in tapped(cast, as_("staff"), "done_together", **wrong)
    assert not Entry.objects.exists()


def test_the_form_for_many_greens_opens_with_those_due_and_their_amounts(cast, as_, rebuilds, bag):
    one = group(cast, "feed")
    page = as_("staff").get(at(cast, "log_work", "feed"), {"due": one.key}).content.decode()
    assert (page.count('name="greens"'), page.count(" checked")) == (3, 6)
    assert ('value="27"' in page, one.shares[0] in page) == (True, True)


@pytest.mark.parametrize(("chosen", "ticked"), [("all", 3), ("none", 0), ("due", 3)])
def test_greens_are_chosen_in_one_tap_without_a_script(cast, as_, rebuilds, chosen, ticked):
    page = as_("staff").get(at(cast, "log_work", "roll"), {"green": chosen}).content.decode()
    greens = page.partition('name="greens"')[2].partition("</fieldset>")[0]
    assert greens.count(" checked") == ticked


def test_the_amount_of_each_green_is_worked_out_before_anything_is_kept(cast, as_, rebuilds, bag):
    greens = [one.green.pk for one in rebuilds]
    sent = fed(cast, (bag, "50", "m2"), greens=greens, work_out="yes")
    page = as_("staff").post(at(cast, "log_work", "feed"), sent).content.decode()
    assert "Seventh 22.5 kg, Fourth 27 kg, Ninth 18 kg; 67.5 kg in all" in page
    assert not Entry.objects.exists()


def test_a_rate_per_hectare_is_shared_by_area_and_shown_on_the_entry(cast, as_, rebuilds, bag):
    sent = fed(cast, (bag, "500", "ha"), greens=[one.green.pk for one in rebuilds[:2]])
    page = as_("staff").post(at(cast, "log_work", "feed"), sent, follow=True).content.decode()
    assert "Match 10-0-0: Seventh 22.5 kg, Fourth 27 kg; 49.5 kg in all" in page


def test_the_sheet_for_the_wall_names_what_is_due_on_each_green(cast, as_, rebuilds, bag):
    sheet = as_("committee").get(at(cast, "day_sheet")).content.decode()
    said = (
        "Thu 16 April 2026",
        "Seventh",
        "Fed, 20 kg N/ha of Match 10-0-0",
        "Seventh 9 kg",
        "Walked, all well",
    )
    assert [one for one in said if one not in sheet] == []


def test_one_green_is_not_several(cast, as_):
    issue_programme(establishment=cast.establishment, by=cast.head, on=date(2026, 3, 1))
    assert "Several greens at once" not in as_("staff").get(at(cast, "today")).content.decode()
