"""One value after the other on the keypad: taps, live figures, mending, the keyboard alone."""

import json
import random
from pathlib import Path

import pytest
from django.urls import reverse
from playwright.sync_api import Page, expect

import growin.agronomy
from greens.models import Green, ReadingSet
from growin.agronomy.intervals import more_readings_for_mean
from growin.agronomy.outline import DEGREE_M
from growin.agronomy.rules import BoundRule, CountRule, LargestRule, RangeRule, YesRule
from growin.agronomy.settle import quantiles, terms_of
from tests.journeys.looked_at import barred, misfits

SHEET = json.loads((Path(growin.agronomy.__file__).parent / "sheets" / "intervals.json").read_text())
SMALL_KEYS = """() => [...document.querySelectorAll(".keypad__keys button, .keypad__answers button")]
    .map((one) => one.getBoundingClientRect()).filter(({ width, height }) => Math.min(width, height) < 56)
    .length"""
#: A range rule reads its own quantiles; the others none.
CONFIDENCE = 0.9
RULES = (
    CountRule(4, 5, "White roots 50 mm below the face in", "cores", at_least=50),
    LargestRule(3, 12, "Gap under the edge", "placings"),
    RangeRule(20, 60, 5, "Score", "places", "", CONFIDENCE),
    RangeRule(None, 55, 3, "Score", "places", "", CONFIDENCE),
)


@pytest.fixture
def at(phone: Page, enter, cast):
    """``at("take_reading", …)`` opens that page of the club as a greenkeeper on a phone."""
    url = enter("staff")
    return lambda name, *args: phone.goto(url + reverse(name, args=[cast.club.slug, *args])) and phone


@pytest.fixture
def sums(at):
    """``sums("quantile(…)")`` is what the phone's own arithmetic answers."""
    page = at("choose_any_measure")
    call = "([name, args]) => import('/static/greens/js/settle.js').then((sums) => sums[name](...args))"
    return lambda name, *args: page.evaluate(call, [name, args])


def tap(page: Page, *names: str) -> int:
    for name in names:
        page.get_by_role("button", name=name, exact=True).click()
    return len(names)


def typed(page: Page, *figures: str) -> int:
    """Figures on the keypad; how many taps it took beyond their digits."""
    for one in figures:
        tap(page, *one, "Next")
    return len(figures)


def test_twelve_answers_take_fourteen_taps_at_most(at, cast):
    page = at("choose_measure", cast.green.pk)
    page.get_by_role("link", name="Turf holds to hand pull and trowel").click()
    answers = ["yes"] * 11 + ["no"]
    taps = 1 + tap(page, *answers, "Keep the readings")
    expect(page.get_by_text("The readings are kept.")).to_be_visible()
    assert taps == 14
    assert ReadingSet.objects.get().values == [True] * 11 + [False]


def test_a_set_of_figures_says_mean_interval_and_what_settles_it(at, cast):
    """3, 5 and 7: mean 5, spread 2; 90 % interval 5 ∓ 2.920 × 2/√3, t of 2 degrees as NIST prints it."""
    page = at("take_reading", cast.green.pk, "rooting_depth")
    keypad = page.get_by_role("group", name="Keypad")
    expect(keypad).to_contain_text("none taken yet; 4 of 5 wanted")
    taps = 1 + typed(page, "3", "5", "7")
    expect(keypad).to_contain_text("Mean 5 mm, spread 2 mm, likely 1.6 to 8.4 mm.")
    expect(keypad).to_contain_text("0 of 3 so far; 4 of 5 wanted: not met.")
    taps += tap(page, "Keep the readings")
    expect(page.get_by_text("The readings are kept.")).to_be_visible()
    assert (taps, ReadingSet.objects.get().values) == (5, [3, 5, 7])


def test_a_value_is_mended_left_out_and_said_again(at, cast):
    page = at("take_reading", cast.green.pk, "rooting_depth")
    typed(page, "62", "6", "71", "58")
    page.get_by_role("button", name="core 2: 6, mend it").click()
    tap(page, "6", "Next", "again 58")
    page.get_by_role("button", name="core 3: 71, mend it").click()
    tap(page, "Leave this one out")
    keypad = page.get_by_role("group", name="Keypad")
    expect(keypad).to_contain_text("4 of 4 so far; 4 of 5 wanted: met.")
    tap(page, "Keep the readings")
    expect(page.get_by_text("The readings are kept.")).to_be_visible()
    assert ReadingSet.objects.get().values == [62, 66, 58, 58]


def test_what_cannot_be_is_refused_on_the_spot(at, cast):
    page = at("take_reading", cast.green.pk, "rooting_depth")
    typed(page, "5000")
    wrong = "5000 cannot be right; it should be from 0 mm to 400 mm."
    expect(page.get_by_role("alert")).to_have_text(wrong)
    tap(page, "Keep the readings")
    expect(page.get_by_role("alert")).to_have_text(wrong)
    assert not ReadingSet.objects.exists()


def test_hits_carry_their_points_over_and_the_green_is_chosen_on_the_same_page(at, cast):
    page = at("take_on_a_green", "cover")
    page.get_by_label("Green", exact=True).select_option(label="Seventh")
    page.get_by_label("Points in each frame").fill("20")
    typed(page, "18")
    tap(page, "all")
    keypad = page.get_by_role("group", name="Keypad")
    expect(keypad).to_contain_text("95 %, 38 of 40 points, likely 86 to 98 %.")
    tap(page, "Keep the readings")
    expect(page.get_by_text("The readings are kept.")).to_be_visible()
    kept = ReadingSet.objects.get()
    assert kept.green == cast.green
    assert kept.values == [{"hits": 18, "points": 20}, {"hits": 20, "points": 20}]


def test_a_set_is_taken_by_keyboard_alone(at, cast):
    page = at("take_reading", cast.green.pk, "rooting_depth")
    page.get_by_label("core 1", exact=True).first.focus()
    for depth_mm in ("62", "48.5", "55"):
        page.keyboard.type(depth_mm)
        page.keyboard.press("Enter")
    expect(page.get_by_role("group", name="Keypad")).to_contain_text("2 of 3 so far; 4 of 5 wanted")
    page.get_by_role("button", name="Keep the readings").focus()
    page.keyboard.press("Enter")
    expect(page.get_by_text("The readings are kept.")).to_be_visible()
    assert ReadingSet.objects.get().values == [62, 48.5, 55]


def test_fields_filled_from_outside_come_back_as_the_list(at, cast):
    """A set that waits to be sent is opened again: its fields are filled by name, then the form is told."""
    page = at("take_reading", cast.green.pk, "rooting_depth")
    page.evaluate("""() => {
        const form = document.querySelector("form[data-pocket]");
        form.dispatchEvent(new CustomEvent("boxes", { detail: 6 }));
        form.querySelectorAll("[name=values]").forEach((box, n) => { box.value = String(50 + n); });
        form.dispatchEvent(new Event("input"));
    }""")
    taken = page.get_by_role("list", name="Taken so far").get_by_role("listitem")
    expect(taken).to_have_text(["50", "51", "52", "53", "54", "55"])


@pytest.mark.parametrize("measure", ["rooting_depth", "hand_pull", "cover", "soil_temperature_100"])
def test_the_keypad_fits_a_phone_and_bars_nobody(measure, at, cast, complaints):
    page = at("take_on_a_green", measure)
    page.get_by_label("Green", exact=True).select_option(label="Seventh")
    tap(page, *(["yes"] if measure == "hand_pull" else ["7", "Next"]))
    small = page.evaluate(SMALL_KEYS)
    page.locator(".keypad").evaluate("one => one.scrollIntoView()")
    assert (misfits(page), barred(page), small, complaints) == ([], [], 0, [])


def test_a_place_is_tapped_on_the_outline_and_goes_with_its_value(at, cast):
    page = at("take_reading", cast.green.pk, "rooting_depth")
    page.get_by_text("Where on the green", exact=True).first.click()
    page.get_by_role("img", name="Outline of the green").click()
    typed(page, "62", "55")
    page.get_by_label("to the right, m").fill("-4")
    page.get_by_label("up, m").fill("2.5")
    typed(page, "71")
    tap(page, "Keep the readings")
    expect(page.get_by_text("The readings are kept.")).to_be_visible()
    first, *others = ReadingSet.objects.get().places
    assert max(map(abs, first)) < 0.5
    assert others == [None, [-4, 2.5]]


def test_the_phones_own_place_is_turned_onto_the_sheet(at):
    """A ten-thousandth of a degree north is 11.1 m (a quarter meridian of 10,002 km by 90, WGS 84)."""
    page = at("choose_any_measure")
    call = "([name, args]) => import('/static/greens/js/place.js').then((place) => place[name](...args))"
    asked = [["placeOf", [54.0001, -3, [54, -3, bearing], DEGREE_M]] for bearing in (0, 90, 180)]
    found = [[round(figure, 1) for figure in page.evaluate(call, one)] for one in asked]
    assert found == [[0, 11.1], [-11.1, 0], [0, -11.1]]


def test_the_place_where_the_phone_is_goes_with_the_value(at, cast, context):
    """Two hundred-thousandths of a degree north of the point it was measured from: 2.2 m up the sheet."""
    Green.objects.filter(pk=cast.green.pk).update(latitude_deg=54, longitude_deg=-3, bearing_deg=0)
    context.grant_permissions(["geolocation"])
    context.set_geolocation({"latitude": 54.00002, "longitude": -3, "accuracy": 4})
    page = at("take_reading", cast.green.pk, "rooting_depth")
    page.get_by_text("Where on the green", exact=True).first.click()
    tap(page, "Here")
    expect(page.get_by_text("Known to within 4 m.")).to_be_visible()
    typed(page, "62")
    tap(page, "Keep the readings")
    expect(page.get_by_text("The readings are kept.")).to_be_visible()
    assert ReadingSet.objects.get().places == [[0, 2.2]]


def test_enter_in_a_box_goes_on_to_the_next(at, cast):
    page = at("take_reading", cast.green.pk, "rooting_depth")
    page.get_by_text("In boxes, or as a list").click()
    page.locator("[name=values]").first.focus()
    for depth_mm in ("62", "48.5", "55", "71", "64", "58"):
        page.keyboard.type(depth_mm)
        page.keyboard.press("Enter")
    taken = page.get_by_role("list", name="Taken so far").get_by_role("listitem")
    expect(taken).to_have_text(["62", "48.5", "55", "71", "64", "58"])


def test_intervals_of_the_phone_are_the_published_ones(sums):
    """The check sheet of intervals: NIST/SEMATECH e-Handbook and Newcombe 1998, sources in the sheet."""
    off = {}
    for one in (line for line in SHEET if line["calculation"].endswith("_interval")):
        found = of_phone(sums, one["inputs"])
        limits = dict(zip(("lower", "upper"), found, strict=True))
        wrong = {
            key: at for key, at in limits.items() if abs(at - one["expected"][key]) > one["tolerance"][key]
        }
        off |= {one["id"]: wrong} if wrong else {}
    assert off == {}


def of_phone(sums, given: dict) -> list[float]:
    table = quantiles(given["confidence"])
    if "successes" in given:
        return sums("shareInterval", given["successes"], given["count"], table["z"])
    if "values" in given:
        given = given | {name: sums(name, given["values"]) for name in ("mean", "spread")}
        given |= {"standard_deviation": given["spread"], "count": len(given["values"])}
    return sums("meanInterval", given["mean"], given["standard_deviation"], given["count"], table)


def more_said(settles: str) -> int:
    """How many more a rule asks for, out of its sentence; 1 at least where the mean lies on the limit."""
    return next((int(word) for word in settles.split() if word.isdigit()), 0)


def test_the_phone_judges_as_the_rules_do(sums):
    """Sets drawn at random: state and readings still wanted, rule by rule; our own rules are the judge."""
    draw = random.Random(11)
    tables = {str(CONFIDENCE): quantiles(CONFIDENCE)}
    sets = [[draw.randint(0, 80) * draw.choice([0, 0, 1]) for _ in range(n)] for n in (1, 2, 4, 5, 12, 14)]
    sets += [[draw.randint(45, 66) for _ in range(n)] for n in (3, 4, 5, 7, 30)]
    asked = [(rule, values) for rule in RULES for values in sets]
    frames = [[{"hits": draw.randint(20, 25), "points": 25} for _ in range(n)] for n in (1, 5, 10, 12)]
    asked += [(BoundRule(90, 86, 10, 25, 0.95), values) for values in frames]
    asked += [(YesRule("Holds", "Does not", of=3), [True] * n + [False] * m) for n in (1, 3) for m in (0, 1)]
    ours = [rule.judge(values) for rule, values in asked]
    theirs = [sums("judge", terms_of(rule), values, tables) for rule, values in asked]
    assert [(one["state"], one["more"]) for one in theirs] == [
        (one.state, more_said(one.settles)) for one in ours
    ]


def test_more_readings_are_counted_as_the_site_counts_them(sums):
    values = [3, 5, 7, 4, 9]
    for half_width in (0.2, 0.5, 1, 3):
        more = more_readings_for_mean(values, half_width, CONFIDENCE)
        assert sums("moreForMean", values, half_width, quantiles(CONFIDENCE)) == more
