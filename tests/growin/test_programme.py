"""The programme: drawn from the record, changed by hand, kept version by version."""

from datetime import date, timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from greens.actions.people import NotPossible
from greens.models import Layer, TrailLine
from growin.actions.answer import tick
from growin.actions.programme import Doubtful, add_step, change_step, drop_step, issue_programme, restore_step
from growin.agronomy.programme import GATE
from growin.models import Programme, StepAnswer
from growin.queries import programme as queries
from tests.cast import laid_green

pytestmark = pytest.mark.django_db


@pytest.fixture
def drawn(cast):
    return issue_programme(establishment=cast.establishment, by=cast.head, on=cast.today)


def plan_of(establishment, on) -> dict:
    """Steps in force by key, dropped ones left out."""
    return {one.step.key: one.step for one in queries.steps(establishment, on) if not one.step.is_dropped}


def likely(establishment, on) -> dict[str, date]:
    return {key: step.likely for key, step in plan_of(establishment, on).items()}


def drawn_for(cast, **facts):
    """The plan of another green of the club that differs in these facts only."""
    establishment = laid_green(cast.club, f"Green {cast.club.greens.count()}", **facts)
    issue_programme(establishment=establishment, by=cast.head, on=cast.today)
    return plan_of(establishment, cast.today)


def rates(plan: dict, kind: str) -> list[float]:
    return [step.amount for step in plan.values() if step.kind == kind and step.amount]


def test_a_first_programme_keeps_what_it_was_drawn_from(cast, drawn):
    assert (drawn.number, drawn.by, drawn.issued_on) == (1, cast.head, cast.today)
    assert drawn.inputs["green"]["area_m2"] == 450
    assert len(drawn.inputs["normals_c"]) == 12
    assert drawn.settings["feeding.turf.first_dose_n_kg_ha"] == 6
    line = TrailLine.objects.get(noun="programme", noun_pk=drawn.pk)
    assert line.changes["version"] == [None, 1]


def test_without_area_day_and_normals_it_says_what_to_enter(cast):
    bare = laid_green(cast.club, "Bare", established_on=None)
    bare.green.area_dm2 = None
    bare.green.save()
    cast.club.normals.all().delete()
    with pytest.raises(NotPossible) as refusal:
        issue_programme(establishment=bare, by=cast.head, on=cast.today)
    assert str(refusal.value) == (
        "Enter the area of the green: every amount hangs on it. "
        "Enter the day of laying or sowing: every date hangs on it. "
        "Enter the club's twelve monthly normals."
    )
    assert not Programme.objects.exists()


def test_a_record_that_cannot_be_is_a_sentence(cast):
    cast.establishment.summer_height_mm = 40
    cast.establishment.save()
    with pytest.raises(NotPossible) as refusal:
        issue_programme(establishment=cast.establishment, by=cast.head, on=cast.today)
    assert str(refusal.value) == "summer height, mm: 40 is not possible; it should be from 2 to 15."


def test_species_governs_heights_and_not_walks(cast):
    """Summer heights: fescue 5.0 mm, USGA/Nordic trial; bent 3.0–4.0 mm, common practice."""
    fescue, bent = drawn_for(cast, species="fine fescue"), drawn_for(cast, species="creeping bent")
    assert min(rates(fescue, "cut")) > min(rates(bent, "cut"))
    walks = [{key for key, step in plan.items() if step.kind == "walk"} for plan in (fescue, bent)]
    assert walks[0] & walks[1] == min(walks, key=len)


def test_the_month_of_laying_governs_the_gate(cast):
    """Laid in autumn: 16 weeks and not before 1 April; laid in growth: 8 weeks. Our judgement."""
    autumn = drawn_for(cast, established_on=date(2025, 10, 20))
    spring = drawn_for(cast, established_on=date(2026, 4, 6))
    gates = [next(step.likely for step in plan.values() if step.kind == GATE) for plan in (autumn, spring)]
    assert gates == [date(2026, 4, 1), date(2026, 6, 1)]


def test_missing_fall_on_the_record_governs_the_drains_only(cast):
    """Least continuous fall 0.5 %: USGA."""
    even = drawn_for(cast)
    wet = laid_green(cast.club, "Wet")
    wet.drains.create(kind="lateral", fall_percent="0.20")
    issue_programme(establishment=wet, by=cast.head, on=cast.today)
    plan = plan_of(wet, cast.today)
    changed = {key.rpartition("-")[0] for key in set(plan) ^ set(even)}
    assert changed == {"drain_check"}


def test_a_shallow_rootzone_governs_hand_watering_only(cast):
    """300 mm ± 25 mm: USGA."""
    even = drawn_for(cast)
    shallow = laid_green(cast.club, "Shallow")
    Layer.objects.create(establishment=shallow, kind="rootzone", depths_mm=[240, 250, 235, 244])
    issue_programme(establishment=shallow, by=cast.head, on=cast.today)
    changed = {key.rpartition("-")[0] for key in set(plan_of(shallow, cast.today)) ^ set(even)}
    assert changed == {"hand_water"}


def test_the_south_stands_six_months_away(cast):
    cast.club.latitude_deg = -54
    cast.club.save()
    south = drawn_for(cast, works_started_on=date(2025, 3, 10), established_on=date(2025, 4, 20))
    gate = next(step.likely for step in south.values() if step.kind == GATE)
    assert gate == date(2025, 10, 1)


def test_a_step_moved_by_hand_survives_a_new_drawing(cast, drawn):
    was = plan_of(cast.establishment, cast.today)["feed-03"]
    moved_to = was.likely + timedelta(days=5)
    where = {"establishment": cast.establishment, "by": cast.head, "on": cast.today}
    second = change_step(**where, key="feed-03", why="Medal on the first day", likely=moved_to)
    assert second.difference["moved"] == {"feed-03": [was.likely.isoformat(), moved_to.isoformat()]}
    third = issue_programme(**where)
    now = plan_of(cast.establishment, cast.today)["feed-03"]
    assert (now.likely, now.by_hand, now.mark, now.source) == (moved_to, True, "by hand", "Isla Rowan")
    assert (now.earliest - was.earliest, now.latest - was.latest) == (timedelta(days=5), timedelta(days=5))
    assert third.difference["drawn"]["feed-03"]["likely"] == was.likely.isoformat()
    assert third.difference["moved"] == {}
    assert drawn.steps.get(key="feed-03").likely == was.likely


def test_a_dropped_step_stays_dropped_until_it_is_taken_up_again(cast, drawn):
    where = {"establishment": cast.establishment, "by": cast.head, "on": cast.today}
    drop_step(**where, key="roll-04")
    issue_programme(**where)
    assert "roll-04" not in plan_of(cast.establishment, cast.today)
    restore_step(**where, key="roll-04")
    assert "roll-04" in plan_of(cast.establishment, cast.today)


def test_an_added_step_keeps_its_key_for_ever(cast, drawn):
    where = {"establishment": cast.establishment, "by": cast.head, "on": cast.today}
    said = {"kind": "brush", "what": "Brush against the grain", "likely": cast.today + timedelta(days=3)}
    add_step(**where, **said)
    drop_step(**where, key="hand-01")
    add_step(**where, **said)
    issue_programme(**where)
    own = [
        one.step for one in queries.steps(cast.establishment, cast.today) if one.step.key.startswith("hand-")
    ]
    assert [(step.key, step.is_dropped) for step in own] == [("hand-01", True), ("hand-02", False)]


def test_answers_stay_with_keys_through_versions(cast, drawn):
    where = {"establishment": cast.establishment, "by": cast.head, "on": cast.today}
    tick(**where, key="feed-02")
    issue_programme(**where)
    change_step(**where, key="feed-02", likely=cast.today, why="moved")
    assert queries.step(cast.establishment, "feed-02", cast.today).state == "done"
    assert StepAnswer.objects.count() == 1


def test_a_plan_over_a_limit_asks_and_one_over_all_limits_is_refused(cast, drawn):
    """Asked above 20 kg N/ha soluble granular (common practice); never above 49 (1 lb N/1,000 ft²)."""
    where = {"establishment": cast.establishment, "by": cast.head, "on": cast.today, "key": "feed-03"}
    with pytest.raises(Doubtful) as doubt:
        change_step(**where, amount=22.0)
    assert str(doubt.value).startswith("22 kg N/ha is high")
    change_step(**where, amount=22.0, is_meant=True, why="Thin after the frost")
    with pytest.raises(NotPossible) as refusal:
        change_step(**where, amount=60.0, is_meant=True)
    assert str(refusal.value) == "60 kg N/ha is over 49 kg N/ha, the most in one dose."
    assert plan_of(cast.establishment, cast.today)["feed-03"].amount == 22


def test_a_height_under_a_third_of_the_leaf_is_asked_about(cast, drawn):
    where = {"establishment": cast.establishment, "by": cast.head, "on": cast.today}
    with pytest.raises(Doubtful) as doubt:
        change_step(**where, key="cut-ladder-8.0", amount=6.0)
    assert doubt.value.sentences == ("From 11 to 6 mm takes over a third of the leaf; 7.3 mm first.",)


def test_measured_days_move_the_steps_to_come(cast, drawn):
    """A mild spring brings the first feed forward."""
    before = likely(cast.establishment, cast.today)["feed-01"]
    cast.club.weather_days.bulk_create(
        cast.club.weather_days.model(club=cast.club, on=date(2026, 2, 1) + timedelta(days=n), mean_c=11)
        for n in range(40)
    )
    issue_programme(establishment=cast.establishment, by=cast.head, on=cast.today)
    assert likely(cast.establishment, cast.today)["feed-01"] < before


def test_the_head_draws_and_everybody_reads(cast, as_):
    page = reverse("programme", args=[cast.club.slug, cast.green.pk])
    draw = reverse("draw_programme", args=[cast.club.slug, cast.green.pk])
    assert as_("staff").post(draw).status_code == 403
    as_("head").post(draw, {"why": "First"})
    roles, whole = ("head", "staff", "committee", "adviser"), {"month": "all"}
    shown = {role: as_(role).get(page, whole).content.decode() for role in roles}
    assert all("First light feed" in one for one in shown.values())
    assert [role for role, one in shown.items() if "Draw the programme again" in one] == ["head"]


def test_the_months_around_today_stand_open_and_any_other_opens_when_asked(cast, as_, drawn):
    staff, page = as_("staff"), reverse("programme", args=[cast.club.slug, cast.green.pk])
    first = drawn.steps.get(key="feed-01")
    asked = ("", f"{first.likely:%Y-%m}", "nonsense")
    opened = {month: staff.get(page, {"month": month}).content.decode() for month in asked}
    assert [first.what in shown for shown in opened.values()] == [False, True, False]


def test_the_page_says_what_is_missing_before_the_first_drawing(cast, as_):
    bare = laid_green(cast.club, "Bare", established_on=None)
    shown = as_("head").get(reverse("programme", args=[cast.club.slug, bare.green.pk])).content.decode()
    assert "Enter the day of laying or sowing" in shown
    refused = as_("head").post(reverse("draw_programme", args=[cast.club.slug, bare.green.pk]), follow=True)
    assert "Enter the day of laying or sowing" in refused.content.decode()


def test_the_page_costs_the_same_after_ten_versions(cast, as_, drawn, django_assert_num_queries):
    head, page = as_("head"), reverse("programme", args=[cast.club.slug, cast.green.pk])
    head.get(page)
    with CaptureQueriesContext(connection) as seen:
        head.get(page)
    once = len(seen)
    where = {"establishment": cast.establishment, "by": cast.head, "on": cast.today}
    for day in range(1, 6):
        change_step(**where, key="roll-04", likely=cast.today + timedelta(days=day), why="trial")
        tick(**where, key=f"walk-2026-W{day + 10}")
    head.get(page)
    with django_assert_num_queries(once):
        head.get(page)


@pytest.mark.parametrize(
    ("form", "sentence"),
    [
        ({"likely": "soon"}, "This is not a day"),
        ({"amount": "a handful"}, "&#x27;a handful&#x27; is not a number"),
        ({"amount": "-4"}, "-4 kg N/ha cannot be right"),
        ({"what": "x" * 5000}, "at most 200 characters"),
        ({"likely": "2019-01-01"}, "no step can lie before that day"),
        ({"amount": "60"}, "over 49 kg N/ha, the most in one dose"),
        ({"why": ""}, "This field is required"),
    ],
)
def test_a_bad_change_is_a_sentence_and_keeps_nothing(cast, as_, drawn, form, sentence):
    good = {"likely": "2026-04-25", "amount": "6", "what": "Light feed", "how": "", "why": "Medal"}
    address = reverse("change_step", args=[cast.club.slug, cast.green.pk, "feed-03"])
    answer = as_("head").post(address, good | form)
    assert answer.status_code == 200
    assert sentence in answer.content.decode()
    assert Programme.objects.count() == 1


def test_a_doubtful_change_is_kept_once_it_is_ticked(cast, as_, drawn):
    head, address = as_("head"), reverse("change_step", args=[cast.club.slug, cast.green.pk, "feed-03"])
    form = {"likely": "2026-04-22", "amount": "22", "what": "Light feed", "how": "", "why": "Thin"}
    asked = head.post(address, form).content.decode()
    assert "above 20 kg N/ha say that it is meant" in asked
    assert 'type="checkbox" name="is_meant"' in asked
    assert head.post(address, form | {"is_meant": "on"}).status_code == 302
    assert plan_of(cast.establishment, cast.today)["feed-03"].amount == 22


def test_a_step_is_added_by_form(cast, as_, drawn):
    form = {"kind": "dew", "likely": "2026-04-20", "what": "Switch before the visit", "why": "Adviser comes"}
    head = as_("head")
    address = reverse("add_step", args=[cast.club.slug, cast.green.pk])
    assert "Choose the unit" in head.post(address, form | {"amount": "3"}).content.decode()
    assert head.post(address, form).status_code == 302
    assert "hand-01" in plan_of(cast.establishment, cast.today)


def test_an_old_version_stays_readable(cast, as_, drawn):
    where = {"establishment": cast.establishment, "by": cast.head, "on": cast.today}
    change_step(**where, key="feed-03", likely=date(2026, 4, 27), why="Medal")
    listed = as_("committee").get(reverse("programme_versions", args=[cast.club.slug, cast.green.pk]))
    assert "1 step moved" in listed.content.decode()
    first = as_("committee").get(reverse("programme_version", args=[cast.club.slug, cast.green.pk, 1]))
    assert "Wed 22 April" in first.content.decode()
    assert (
        as_("head").get(reverse("programme_version", args=[cast.club.slug, cast.green.pk, 9])).status_code
        == 404
    )
