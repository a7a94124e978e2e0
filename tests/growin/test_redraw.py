"""Old against new before anything is issued, and what was done carried on."""

from datetime import date, timedelta

import pytest
from django.urls import reverse

from greens.actions.diary import record_work
from greens.actions.setting import override
from greens.models import Entry, TrailLine
from greens.queries import settings as constants
from growin.actions.answer import not_done, put_off, tick
from growin.actions.programme import change_step, drop_step, issue_programme
from growin.models import Programme
from growin.queries import drawn as drawings
from growin.queries import lag, redraw
from growin.queries.done import done_of
from growin.queries.programme import steps as steps_on
from tests.cast import laid_green
from tests.growin.ripe import read

pytestmark = pytest.mark.django_db
SINCE = date(2026, 3, 1)


@pytest.fixture
def old(cast):
    """A programme drawn on 1 March; today is 16 April."""
    return issue_programme(establishment=cast.establishment, by=cast.head, on=SINCE)


def warm(cast, mean_c: float = 12, first: date = SINCE, days: int = 45) -> None:
    rows = cast.club.weather_days
    rows.bulk_create(
        rows.model(club=cast.club, on=first + timedelta(days=n), mean_c=mean_c) for n in range(days)
    )


def fed(cast, on: date, key: str = "feed-01") -> Entry:
    entry = record_work(
        club=cast.club, by=cast.head, done_by=cast.staff, kind="feed", on=on, greens=[cast.green], details={}
    )
    tick(establishment=cast.establishment, key=key, by=cast.head, on=on, entry=entry)
    return entry


def cut(cast, on: date, height_mm: float) -> None:
    record_work(
        club=cast.club, by=cast.head, done_by=cast.staff, kind="cut", on=on, greens=[cast.green],
        details={"height_mm": height_mm},
    )  # fmt: skip


def again(cast):
    return redraw.of(cast.establishment, cast.today)


def address(cast, name: str = "redraw") -> str:
    return reverse(name, args=[cast.club.slug, cast.green.pk])


def page(cast, client) -> str:
    return client.get(address(cast)).content.decode()


def plan(cast) -> dict:
    return {one.step.key: one.step for one in steps_on(cast.establishment, cast.today)}


def accepted(cast, client, **more):
    return client.post(address(cast), {"why": "A warm spring", "mark": again(cast).mark, **more}, follow=True)


def test_a_warm_spring_moves_steps_and_says_by_how_many_degree_days(cast, old, as_):
    warm(cast)
    shown = again(cast)
    assert shown.warmth.measured == 45
    assert shown.weather_words.startswith("45 days measured since: ")
    assert shown.weather_words.endswith(" ahead")
    assert {one.split(":")[0] for row in shown.moved for one in row.reasons} >= {"the weather"}
    assert all(row.days == (row.after.likely - row.before.likely).days for row in shown.moved)
    text = page(cast, as_("head"))
    assert ("What moves" in text, "days earlier" in text, "The weather: " in text) == (True, True, True)
    assert Programme.objects.filter(establishment=cast.establishment).count() == 1


def test_nothing_changed_says_so(cast, as_):
    issue_programme(establishment=cast.establishment, by=cast.head, on=cast.today)
    shown = again(cast)
    assert (shown.is_same, shown.why) == (True, "")
    assert "Nothing would change" in page(cast, as_("head"))


def test_a_changed_fact_is_named_with_what_it_was(cast, old, as_):
    cast.establishment.others_height_mm = 5
    cast.establishment.save()
    shown = again(cast)
    assert [(one.words, one.before, one.after) for one in shown.facts] == [
        ("Height of the other greens", "none", "5 mm")
    ]
    assert any("height of the other greens changed" in one for row in shown.rows for one in row.reasons)


def test_a_changed_setting_is_named_with_what_it_was(cast, old):
    override(
        club=cast.club, by=cast.head, key="rounds.roll", value=10, why="Firm soil", in_force_from=cast.today
    )
    shown = again(cast)
    assert [(one.words, one.before, one.after) for one in shown.settings] == [
        ("between light rolls", "14 days", "10 days")
    ]
    rolls = [row for row in shown.moved if row.step.kind == "roll"]
    assert {one.split(":")[0] for row in rolls for one in row.reasons} == {"between light rolls changed"}


def test_feeds_go_on_from_the_day_that_was_fed(cast, old):
    """Every 7–10 days in growth: common practice."""
    on = min(plan(cast)["feed-02"].likely - timedelta(days=2), cast.today)
    fed(cast, on)
    moved = {row.step.key: row for row in again(cast).moved}
    assert (moved["feed-02"].after.likely - on).days >= 7
    assert any("fed last on" in one for one in moved["feed-02"].reasons)
    assert "feed-01" not in moved


def test_heights_go_on_from_the_last_cut(cast, old):
    cut(cast, date(2026, 3, 20), 8)
    cut(cast, cast.today - timedelta(days=1), 7)
    rows = [row for row in again(cast).rows if row.step.key.startswith("cut-ladder") and row.after]
    lower = [row.after.likely for row in rows if row.after.amount < 7]
    assert min(lower) >= cast.today + timedelta(days=6)


def test_turf_read_rooted_counts_as_rooted_from_that_day(cast, old):
    settings = constants.in_force(cast.club, cast.today, cast.green)
    on = date(2026, 3, 10)
    assert done_of(cast.establishment, cast.today, settings).rooted_on is None
    read(cast, "hand_pull", [True] * 10, on)
    read(cast, "rooting_depth", [62, 55, 71, 58, 66], on)
    done = done_of(cast.establishment, cast.today, settings)
    assert (done.rooted_on, done.knitted_on) == (on, on)
    assert "rooted by Tue 10 March" in again(cast).why


def test_what_was_taken_back_was_not_done(cast, old):
    entry = fed(cast, date(2026, 4, 10))
    settings = constants.in_force(cast.club, cast.today, cast.green)
    assert done_of(cast.establishment, cast.today, settings).last == {"feed": date(2026, 4, 10)}
    Entry.objects.filter(pk=entry.pk).update(taken_back_at=entry.logged_at)
    taken = done_of(cast.establishment, cast.today, settings)
    assert (taken.last, taken.steps) == ({}, {})


def test_a_version_can_be_drawn_again_from_what_it_kept(cast, old):
    fed(cast, date(2026, 4, 10))
    cut(cast, date(2026, 4, 11), 8)
    warm(cast)
    new = issue_programme(establishment=cast.establishment, by=cast.head, on=cast.today)
    kept = drawings.as_it_was(Programme.objects.get(pk=new.pk))
    settings = constants.in_force(cast.club, cast.today, cast.green)
    assert kept == drawings.now(cast.establishment, cast.today, settings)


def test_the_head_accepts_and_the_reasons_stand_with_the_version(cast, old, as_):
    warm(cast)
    shown = again(cast)
    done = accepted(cast, as_("head"), why=shown.why)
    assert "Programme 2 is drawn." in done.content.decode()
    version = Programme.objects.get(establishment=cast.establishment, number=2)
    assert (version.by, version.why) == (cast.head, shown.why)
    assert {row.step.key: row.after.likely for row in shown.moved} == {
        row.step.key: plan(cast)[row.step.key].likely for row in shown.moved
    }
    assert old.steps.get(key="feed-02").likely == shown.last.steps.get(key="feed-02").likely


def test_what_changed_meanwhile_is_shown_before_it_is_accepted(cast, old, as_):
    head, mark = as_("head"), again(cast).mark
    warm(cast)
    text = head.post(address(cast), {"why": "", "mark": mark}).content.decode()
    assert "Something has changed since this page was opened" in text
    assert Programme.objects.filter(establishment=cast.establishment).count() == 1


@pytest.mark.parametrize("sent", [{}, {"mark": "x" * 5000}, {"mark": "…", "why": "y" * 400}])
def test_nonsense_issues_nothing(cast, old, as_, sent):
    warm(cast)
    assert as_("head").post(address(cast), sent).status_code == 200
    assert Programme.objects.filter(establishment=cast.establishment).count() == 1


def test_steps_by_hand_dropped_and_answered_stay(cast, old):
    where = {"establishment": cast.establishment, "by": cast.head, "on": SINCE}
    moved_to = plan(cast)["feed-03"].likely + timedelta(days=2)
    change_step(**where, key="feed-03", likely=moved_to, why="Medal", is_meant=True)
    drop_step(**where, key="roll-02")
    fed(cast, date(2026, 4, 3))
    not_done(establishment=cast.establishment, key="roll-01", by=cast.head, on=cast.today, reason="Wet")
    put_off(
        establishment=cast.establishment, key="feed-02", by=cast.head, on=cast.today,
        until=cast.today + timedelta(days=4),
    )  # fmt: skip
    before = plan(cast)
    warm(cast)
    shown = again(cast)
    issue_programme(establishment=cast.establishment, by=cast.head, on=cast.today)
    after = plan(cast)
    for key in ("feed-01", "feed-03", "roll-01", "roll-02"):
        assert (after[key].likely, after[key].is_dropped) == (before[key].likely, before[key].is_dropped)
    assert [row.step.key for row in shown.by_hand] == ["feed-03"]
    assert {"feed-01", "feed-03", "roll-01", "roll-02"}.isdisjoint(row.step.key for row in shown.moved)


def test_without_a_programme_or_its_facts_there_is_nothing_to_compare(cast, as_):
    programme = address(cast, "programme")
    assert as_("head").get(address(cast))["Location"] == programme
    bare = laid_green(cast.club, "Bare", established_on=None)
    place = reverse("redraw", args=[cast.club.slug, bare.green.pk])
    assert as_("head").get(place).status_code == 302


def test_a_record_that_cannot_be_is_a_sentence(cast, old, as_):
    cast.establishment.summer_height_mm = 40
    cast.establishment.save()
    text = as_("head").get(address(cast), follow=True).content.decode()
    assert "it should be from 2 to 15" in text


def test_a_second_drawing_goes_by_way_of_what_would_move(cast, old, as_):
    again = as_("head").post(address(cast, "draw_programme"))
    assert (again.status_code, again["Location"]) == (302, address(cast))
    assert Programme.objects.filter(establishment=cast.establishment).count() == 1


def test_only_the_head_draws_anew(cast, old, as_):
    roles = ("head", "staff", "committee", "adviser", "outsider")
    answers = [as_(role).get(address(cast)).status_code for role in roles]
    assert answers == [200, 403, 403, 403, 404]


def test_the_head_is_told_when_a_programme_lags_the_weather(cast, old, as_):
    today, programme = reverse("today", args=[cast.club.slug]), address(cast, "programme")
    said = "lags the weather"
    assert said not in as_("head").get(today).content.decode()
    warm(cast)
    seen = {
        (role, place): said in as_(role).get(place).content.decode()
        for role in ("head", "staff")
        for place in (today, programme)
    }
    assert seen == {(role, place): role == "head" for role, place in seen}
    (one,) = lag.lags(cast.club, [cast.establishment], cast.today)
    assert (one.words.startswith("about "), one.words.endswith(" days ahead")) == (True, True)


def test_whoever_keeps_the_old_one_is_left_in_peace_for_a_fortnight(cast, old, as_):
    warm(cast)
    as_("head").post(address(cast), {"keep": "1"})
    version = Programme.objects.get()
    assert (version.number, version.kept_on) == (1, cast.today)
    assert TrailLine.objects.filter(deed="Kept programme 1 against a new drawing").count() == 1
    days = [cast.today + timedelta(days=days) for days in (0, 13, 14)]
    assert [bool(lag.lags(cast.club, [cast.establishment], on)) for on in days] == [False, False, True]


def test_usual_weather_is_no_lag(cast, old):
    normals = drawings.as_it_was(old).climate
    rows = cast.club.weather_days
    rows.bulk_create(
        rows.model(club=cast.club, on=day, mean_c=round(normals.normal_c(day), 1))
        for day in (SINCE + timedelta(days=n) for n in range(45))
    )
    assert lag.lags(cast.club, [cast.establishment], cast.today) == []


def test_lags_cost_the_same_for_one_green_and_for_three(cast, old, django_assert_num_queries):
    warm(cast)
    rebuilt = [cast.establishment]
    with django_assert_num_queries(6):
        lag.lags(cast.club, rebuilt, cast.today)
    with django_assert_num_queries(5):
        lag.lags(cast.club, rebuilt, cast.today)
    for name in ("Eighth", "Ninth"):
        rebuilt.append(laid_green(cast.club, name))
        issue_programme(establishment=rebuilt[-1], by=cast.head, on=SINCE)
    with django_assert_num_queries(6):
        assert len(lag.lags(cast.club, rebuilt, cast.today)) == 3


def test_a_corrected_day_is_looked_at_again(cast, old):
    warm(cast)
    assert len(lag.lags(cast.club, [cast.establishment], cast.today)) == 1
    for row in cast.club.weather_days.all():
        row.mean_c = 7
        row.save()
    assert lag.lags(cast.club, [cast.establishment], cast.today) == []
