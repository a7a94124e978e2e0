"""Logging work: a short form, products typed as total or rate, bad input, steps it answers."""

from datetime import date, timedelta
from decimal import Decimal
from uuid import uuid4

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from greens.actions import store
from greens.models import Entry, WeatherDay
from growin.actions.programme import issue_programme
from growin.models import StepAnswer
from growin.queries import programme
from tests.cast import laid_green
from tests.entries import at, cut, fed, label, logged

pytestmark = [pytest.mark.django_db, pytest.mark.every_database]


@pytest.fixture
def bag(cast):
    return label(cast, lines={"N_total": 12})


def test_a_cut_is_two_taps_and_one_figure(cast, as_):
    staff = as_("staff")
    choose = staff.get(at(cast, "log") + f"?green={cast.green.pk}").content.decode()
    assert at(cast, "log_work", "cut") + f"?green={cast.green.pk}" in choose
    page = staff.get(at(cast, "log_work", "cut") + f"?green={cast.green.pk}").content.decode()
    assert 'value="2026-04-16"' in page
    kept = staff.post(at(cast, "log_work", "cut"), cut(cast), follow=True)
    entry = Entry.objects.get()
    assert (entry.details, entry.done_by, entry.logged_by) == ({"height_mm": 8}, cast.staff, cast.staff)
    assert kept.redirect_chain[-1][0] == at(cast, "entry", entry.pk) + "?kept"
    assert "Take back" in kept.content.decode()


def test_walked_it_all_well_is_one_tap_for_all_greens(cast, as_):
    other = laid_green(cast.club, "Practice green")
    sent = {"kind": "walk", "greens": [cast.green.pk, other.green.pk], "client_id": str(uuid4())}
    as_("staff").post(at(cast, "log_at_once"), sent)
    entry = Entry.objects.get()
    assert (entry.kind, entry.on, entry.lines.count()) == ("walk", cast.today, 2)


def test_a_second_tap_logs_nothing_twice(cast, as_):
    staff, sent = as_("staff"), cut(cast)
    staff.post(at(cast, "log_work", "cut"), sent)
    staff.post(at(cast, "log_work", "cut"), sent)
    assert Entry.objects.count() == 1


def test_the_same_form_with_another_figure_is_shown_as_a_conflict(cast, as_):
    staff, sent = as_("staff"), cut(cast)
    staff.post(at(cast, "log_work", "cut"), sent)
    page = staff.post(at(cast, "log_work", "cut"), sent | {"height_mm": "7"})
    assert "says otherwise now" in page.content.decode()
    assert Entry.objects.get().details == {"height_mm": 8}


@pytest.mark.parametrize(
    ("amount", "way", "grams"), [("22,5", "all", 22_500), ("50", "m2", 22_500), ("500", "ha", 22_500)]
)
def test_an_amount_may_be_typed_as_total_or_as_rate(cast, as_, bag, amount, way, grams):
    page = as_("staff").post(at(cast, "log_work", "feed"), fed(cast, (bag, amount, way)), follow=True)
    assert Entry.objects.get().products.get().amount == grams
    words = page.content.decode()
    assert "22.5 kg, 50 g/m² (500 kg/ha)" in words
    assert "N 60 kg/ha (2.7 kg)" in words
    assert "60 kg N/ha is over the limit of 49 kg N/ha for one dose." in words


def test_sand_may_be_typed_as_a_depth(cast, as_):
    sand = store.add_product(
        club=cast.club,
        by=cast.head,
        kind="sand",
        name="Dressing sand",
        lines={},
        bulk_density_t_m3=Decimal("1.5"),
        from_day=cast.today,
    ).newest_label
    page = as_("staff").post(at(cast, "log_work", "dressing"), fed(cast, (sand, "0.5", "mm")), follow=True)
    # Woods, 2017: 1 mm on 1 m² is 1.5 kg at 1.5 t/m³; here half of it on 450 m².
    assert Entry.objects.get().products.get().amount == 337_500
    assert "337.5 kg, 0.5 mm, 750 g/m² (7500 kg/ha)" in page.content.decode()


def test_a_tank_mix_has_two_lines(cast, as_, bag):
    iron = store.add_product(
        club=cast.club,
        by=cast.head,
        kind="granular",
        name="Iron",
        lines={"Fe": Decimal(20)},
        from_day=cast.today,
    ).newest_label
    as_("staff").post(at(cast, "log_work", "feed"), fed(cast, (bag, "4.5", "all"), (iron, "5", "m2")))
    nutrients = {nutrient.element: nutrient.mg_m2 for nutrient in Entry.objects.get().nutrients}
    assert nutrients == {"N": 1_200, "Fe": 1_000}


@pytest.mark.parametrize(
    ("wrong", "sentence"),
    [
        ({"height_mm": "80"}, "80 is not possible; it should be from 2 to 40"),
        ({"height_mm": "-4"}, "is not possible"),
        ({"height_mm": "low"}, "is not a number"),
        ({"height_mm": ""}, "Height of cut on the bench is missing"),
        ({"height_mm": "1e999"}, "not"),
        ({"clippings_ml_m2": "5000"}, "is not possible"),
        ({"on": "2026-04-17"}, "lies in the future"),
        ({"on": "2025-10-01"}, "from laying or sowing, Mon 20 October 2025, on"),
        ({"on": "someday"}, "This is not a day"),
        ({"greens": []}, "Say on which green"),
        ({"boxes": "sideways"}, "Select a valid choice"),
        ({"note": "x" * 5000}, "at most 2000 characters"),
        ({"minutes": "99999"}, "is not possible"),
        ({"client_id": "abc"}, "valid UUID"),
        ({"at_time": "25:90"}, "valid time"),
    ],
)
def test_bad_input_is_answered_with_a_sentence_and_keeps_nothing(cast, as_, wrong, sentence):
    page = as_("staff").post(at(cast, "log_work", "cut"), cut(cast, **wrong))
    assert page.status_code == 200
    assert sentence in page.content.decode()
    assert Entry.objects.count() == 0


@pytest.mark.parametrize(
    ("line", "sentence"),
    [
        (("-5", "all"), "cannot be right"),
        (("lots", "all"), "is not a number"),
        (("", "all"), "Say how much"),
        (("9000", "all"), "is not possible"),
        (("5", "bucket"), "Select a valid choice"),
    ],
)
def test_an_amount_that_cannot_be_is_refused(cast, as_, bag, line, sentence):
    page = as_("staff").post(at(cast, "log_work", "feed"), fed(cast, (bag, *line)))
    assert sentence in page.content.decode()
    assert Entry.objects.count() == 0


def test_a_photograph_that_is_none_is_refused_and_nothing_is_kept(cast, as_):
    upload = SimpleUploadedFile("green.jpg", b"not a picture", content_type="image/jpeg")
    page = as_("staff").post(at(cast, "log_work", "cut"), cut(cast, photographs=upload))
    assert page.status_code == 200
    assert "field__wrong" in page.content.decode()
    assert Entry.objects.count() == 0


def test_ids_of_another_club_inside_the_form_are_refused(cast, as_):
    theirs = store.add_product(
        club=cast.outsider.club,
        by=cast.outsider,
        kind="granular",
        name="Theirs",
        lines={"N_total": Decimal(10)},
        from_day=cast.today,
    ).newest_label
    staff = as_("staff")
    staff.post(at(cast, "log_work", "cut"), cut(cast, greens=[cast.other_green.pk]))
    staff.post(at(cast, "log_work", "cut"), cut(cast, done_by=cast.outsider.pk))
    staff.post(at(cast, "log_work", "feed"), fed(cast, (theirs, "5", "all")))
    staff.post(at(cast, "log_at_once"), {"kind": "walk", "greens": [cast.other_green.pk]})
    assert Entry.objects.count() == 0


def test_the_last_one_is_offered_and_copied(cast, as_):
    last = logged(cast, on=date(2026, 4, 14), details={"height_mm": 7.5, "boxes": "off"})
    address = at(cast, "log_work", "cut")
    assert "As on Tue 14 April: 7.5 mm, boxes off" in as_("staff").get(address).content.decode()
    copied = as_("staff").get(address + f"?copy={last.pk}").content.decode()
    assert 'value="7.5"' in copied
    assert 'value="2026-04-16"' in copied


def test_a_caution_states_its_condition_until_the_weather_was_entered(cast, as_):
    address = at(cast, "log_work", "cut") + f"?green={cast.green.pk}"
    assert "If leaf or ground is frozen" in as_("staff").get(address).content.decode()
    WeatherDay.objects.create(club=cast.club, on=cast.today, min_c=Decimal(-2), rain_mm=Decimal(0))
    frosty = as_("staff").get(address).content.decode()
    assert "The night went down to -2 °C" in frosty
    WeatherDay.objects.update(min_c=Decimal(6))
    assert "frozen" not in as_("staff").get(address).content.decode()


@pytest.fixture
def planned(cast):
    """A step of cutting that is open, in the programme of the green."""
    issue_programme(establishment=cast.establishment, by=cast.head, on=date(2026, 3, 1))
    return programme.matches([cast.establishment], "cut", cast.today)[0]


def test_a_step_is_answered_only_where_it_is_ticked(cast, as_, planned):
    tick = f"{cast.establishment.pk}:{planned.step.key}"
    address = at(cast, "log_work", "cut") + f"?green={cast.green.pk}"
    assert planned.step.what in as_("staff").get(address).content.decode()
    as_("staff").post(address, cut(cast, height_mm="9"))
    assert StepAnswer.objects.count() == 0
    as_("staff").post(address, cut(cast, height_mm="9", answers=[tick]))
    answer = StepAnswer.objects.get()
    assert (answer.key, answer.entry) == (planned.step.key, Entry.objects.first())
    assert "9 mm" in answer.differs
    assert "Done differently:" in as_("committee").get(at(cast, "diary")).content.decode()


def test_a_step_can_be_ticked_from_the_entry_afterwards(cast, as_, planned):
    entry = logged(cast, details={"height_mm": planned.step.amount})
    as_("staff").post(at(cast, "answer_by_entry", entry.pk), {"key": planned.step.key})
    assert StepAnswer.objects.get().entry == entry


def test_the_planned_height_stands_in_the_form(cast, as_, planned):
    query = f"?green={cast.green.pk}&step={planned.step.key}"
    page = as_("staff").get(at(cast, "log_work", "cut") + query).content.decode()
    assert f'value="{planned.step.amount:g}"' in page or f'value="{planned.step.amount}"' in page
    assert "checked" in page


def test_not_done_answers_what_was_due_with_its_reason(cast, as_, planned):
    due = [one for one in programme.due(cast.club, cast.today) if one.step.kind != "reading"][0]
    tick = f"{cast.establishment.pk}:{due.step.key}"
    sent = {name: value for name, value in cut(cast).items() if name != "height_mm"}
    address = at(cast, "log_work", "not_done") + f"?green={cast.green.pk}"
    as_("staff").post(address, sent | {"reason": "frost", "answers": [tick]})
    answer = StepAnswer.objects.get()
    assert (answer.kind, answer.reason) == ("put_off", "weather: frost")
    assert answer.until == cast.today + timedelta(days=1)


def test_a_form_takes_as_many_queries_after_a_season_as_after_one_entry(
    cast, as_, bag, planned, django_assert_num_queries
):
    staff, address = as_("staff"), at(cast, "log_work", "feed") + f"?green={cast.green.pk}"
    logged(cast, "feed", products=[(bag, 2_250)], on=date(2026, 3, 31))
    with django_assert_num_queries(QUERIES_OF_THE_FORM):
        staff.get(address)
    for day in range(1, 16):
        logged(cast, "feed", products=[(bag, 2_250)], on=date(2026, 4, day))
    with django_assert_num_queries(QUERIES_OF_THE_FORM):
        staff.get(address)


QUERIES_OF_THE_FORM = 19
