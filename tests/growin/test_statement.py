"""The statement for the committee: two tagged pages that say what the readiness page says."""

import re
import sys
import time
from datetime import date, timedelta

import pytest
from django.urls import reverse

from greens import units
from greens.choices import Units
from greens.models import Advice, DayState, Setting
from growin.actions.forecast import keep
from growin.actions.proposal import propose
from growin.agronomy.opening_early import consequences
from growin.agronomy.settings_table import DEFAULTS
from growin.evidence.readiness import readiness_of
from growin.evidence.statement import Statement, statement_of
from growin.models import Decision
from tests.growin.paper import in_one_line, printed, set_from
from tests.growin.ripe import make_ready

pytestmark = [pytest.mark.django_db, pytest.mark.pdf]

A4_MM, LETTER_MM = (210, 297), (216, 279)
DEPTH = "criterion.rooting_turf.depth_mm"
FALLS_SHORT = {"rooting_depth": [20] * 5, "lip": [5] * 20, "hole": [False] * 3, "disease_share": [8]}


def with_forecast(cast) -> Statement:
    """The statement as it is once a forecast is kept."""
    keep(cast.establishment, cast.today)
    return statement_of(cast.club, cast.green, cast.today)


def proposed(cast, days: int = 9):
    return propose(
        establishment=cast.establishment,
        by=cast.committee,
        opening_on=cast.today + timedelta(days=days),
        pattern="limited",
    )


def change(cast, key: str, value: float, why: str, on: date | None = None) -> Setting:
    return Setting.objects.create(
        club=cast.club, key=key, value=value, by=cast.head, why=why, in_force_from=on or cast.today
    )


def unlaid(cast):
    cast.establishment.established_on = None
    cast.establishment.save()


STATES = {
    "not ready": lambda cast: make_ready(cast, **FALLS_SHORT),
    "ready": make_ready,
    "not known": lambda cast: None,
    "unlaid": unlaid,
}


# ---- two pages that say what the readiness page says --------------------------------------------------


@pytest.mark.parametrize("state", STATES)
def test_it_says_on_two_pages_what_the_readiness_page_says(state, cast, as_):
    STATES[state](cast)
    paper, known = printed(cast, as_("committee")), readiness_of(cast.club, cast.green, cast.today)
    front, back = paper.pages
    assert known.verdict.state.capitalize() in front
    assert in_one_line(known.sentence) in front
    assert f"Next inspection: {known.next_inspection}." in front
    for one in known.verdict.unmet:
        assert f"{one.words}, {one.state}. {' '.join(one.because)}" in front
    for one in known.verdict.bars:
        assert f"{one.words} {one.state.capitalize()} {' '.join(one.sentences)}" in back
    assert all(one.words in back for one, _ in known.watches)


def test_the_head_says_club_green_and_day_and_the_foot_who_decides(cast, as_):
    front, back = printed(cast, as_("staff")).pages
    assert front.startswith("Marram Links Thu 16 April 2026 Seventh: may it open?")
    assert "Page 1 of 2" in front
    assert "The record advises; the committee decides." in back


def test_a_ready_green_shows_all_bars_met_and_nothing_that_holds_it_back(cast, as_):
    make_ready(cast)
    paper = printed(cast, as_("adviser"))
    assert "All 10 bars are met." in paper.text
    assert "What holds it back" not in paper.text


def test_a_past_day_says_what_was_known_then(cast, as_):
    make_ready(cast)
    then = printed(cast, as_("head"), as_of="2026-03-01").pages[0]
    assert "Sun 1 March 2026 Seventh: may it open? Not ready" in then
    assert "Thu 16 April 2026" in printed(cast, as_("head"), as_of="never").pages[0]


def test_before_the_works_the_readiness_page_answers_instead(cast, as_):
    path = reverse("statement", args=[cast.club.slug, cast.green.pk])
    answer = as_("head").get(path, {"as_of": "2025-01-01"}, follow=True)
    assert "No rebuild of Seventh was under way on Wed 1 January 2025" in answer.content.decode()


def test_the_readiness_page_links_to_it_as_of_the_same_day(cast, as_):
    path = reverse("statement", args=[cast.club.slug, cast.green.pk])
    page = reverse("readiness", args=[cast.club.slug, cast.green.pk])
    assert f'href="{path}"' in as_("staff").get(page).content.decode()
    assert f'href="{path}?as_of=2026-03-01"' in as_("staff").get(page, {"on": "2026-03-01"}).content.decode()


# ---- thresholds, decisions, advice, play --------------------------------------------------------------


def test_every_changed_threshold_stands_with_its_author_and_the_loosened_one_is_marked(cast, as_):
    change(cast, DEPTH, 40, "shallow rootzone over chalk")
    change(cast, DEPTH, 45, "deeper after all")
    back = printed(cast, as_("committee")).pages[1]
    assert "50 mm 40 mm (loosened) Thu 16 April 2026 Isla Rowan: shallow rootzone over chalk" in back
    assert "40 mm 45 mm Thu 16 April 2026 Isla Rowan: deeper after all" in back


def test_advice_and_the_state_of_the_day_stand_on_the_first_page(cast, as_):
    Advice.objects.create(
        green=cast.green, on=cast.today, words="Wait for the roots & <b>sand</b>.", by=cast.adviser
    )
    DayState.objects.create(green=cast.green, on=cast.today, state="waterlogged", by=cast.head)
    front = printed(cast, as_("committee")).pages[0]
    assert "Wait for the roots & <b>sand</b>. Bram Hazel, Thu 16 April 2026" in front
    assert "Waterlogged today: closed for safety." in front


def decided(cast, number: int, reason: str) -> Decision:
    day = cast.today - timedelta(days=number)
    return Decision.objects.create(
        establishment=cast.establishment,
        pattern="closed",
        made_on=day,
        from_day=day,
        verdict="not met",
        evidence={},
        digest="0" * 64,
        reason=reason,
        is_against_verdict=True,
        by=cast.committee,
    )


def test_decisions_stand_with_who_entered_them_and_against_what(cast, as_):
    decided(cast, 3, "Joints torn at the back.")
    assert (
        "Closed from Mon 13 April 2026, verdict then: not met. Entered by Maeve Thorn on Mon 13 April 2026. "
        "Against the verdict: Joints torn at the back."
    ) in printed(cast, as_("staff")).pages[1]


@pytest.mark.parametrize("read_in", [Units.METRIC, Units.US])
def test_whatever_there_is_to_say_it_stays_on_two_pages(read_in, cast):
    make_ready(cast, cast.today - timedelta(days=60))
    proposed(cast)
    long = "As the members of the committee wished after the spring meeting. " * 60
    Advice.objects.create(green=cast.green, on=cast.today, words=long[:3900], by=cast.adviser)
    for number, key in enumerate([one for one in DEFAULTS if one.startswith("criterion.")][:30]):
        change(cast, key, DEFAULTS[key].value, long[:490], cast.today - timedelta(days=number % 5))
    change(cast, DEPTH, 40, "shallow rootzone", cast.today - timedelta(days=9))
    for number in range(12):
        decided(cast, number, long[:990])
    with units.shown_in(read_in):
        paper = set_from(with_forecast(cast))
    assert len(paper.pages) == 2
    assert re.search(r"and \d+ more on the readiness page", paper.pages[1])
    assert "shallow rootzone" in paper.pages[1], "loosened ones are left out last"


# ---- the forecast and the day proposed ----------------------------------------------------------------


def test_without_a_forecast_it_says_so(cast, as_):
    assert "When it may be ready No forecast yet." in printed(cast, as_("staff")).pages[0]


def test_a_forecast_stands_with_picture_days_and_what_is_met_last(cast):
    statement = with_forecast(cast)
    paper = set_from(statement)
    front = paper.pages[0]
    assert in_one_line(statement.expected.sentence) in front
    for words, on in statement.expected.days:
        assert f"{words.capitalize()} {on}" in front
    first, chance = statement.expected.holding_back[0]
    assert f"Last to be met: {first.lower()} ({chance})" in front
    assert [one["/Alt"] for one in paper.tags if one["/S"] == "/Figure"] == [statement.fan.in_words]


def test_of_an_earlier_day_stands_the_forecast_of_that_day_without_its_picture(cast):
    before = keep(cast.establishment, cast.today - timedelta(days=9))
    keep(cast.establishment, cast.today)
    paper = set_from(statement_of(cast.club, cast.green, cast.today - timedelta(days=5)))
    assert f"Forecast of {before.as_of:%a} {before.as_of.day} April 2026" in paper.pages[0]
    assert [one for one in paper.tags if one["/S"] == "/Figure"] == []


def test_the_day_proposed_stands_with_chance_costs_and_consequences(cast):
    make_ready(cast, **FALLS_SHORT)
    proposed(cast)
    statement = with_forecast(cast)
    front = set_from(statement).pages[0]
    assert "Proposed: limited play from Sat 25 April 2026" in front
    assert f"Chance that it is ready by then: {statement.outlook.chance.words}." in front
    assert "Rooting (not met), Holes and ball drops (not met)" in front
    assert statement.outlook.waiting.words in front
    early = consequences(cast.establishment.species)[0]
    assert f"{early.words} Published: {early.source}." in front


# ---- who hears it, who may read it, in which units, how soon -------------------------------------------


def test_its_headings_lists_and_tables_are_told_as_such(cast, as_):
    change(cast, DEPTH, 40, "shallow rootzone over chalk")
    kinds = [one["/S"] for one in printed(cast, as_("committee")).tags]
    assert (kinds.count("/H1"), kinds.count("/Table"), kinds[0]) == (1, 2, "/Document")
    headings = [int(kind[2]) for kind in kinds if re.fullmatch(r"/H\d", kind)]
    assert all(later <= before + 1 for before, later in zip(headings, headings[1:], strict=False))
    assert {"/L", "/LI", "/TH", "/TD", "/BlockQuote"} - set(kinds) == {"/BlockQuote"}, "no advice, no quote"


def test_nothing_is_painted_outside_the_tags(cast):
    assert set_from(with_forecast(cast)).unmarked == set()


def test_another_clubs_green_does_not_exist(cast, as_):
    path = reverse("statement", args=[cast.club.slug, cast.other_green.pk])
    assert as_("head").get(path).status_code == 404
    assert as_("outsider").get(reverse("statement", args=[cast.club.slug, cast.green.pk])).status_code == 404


def test_a_club_that_reads_inches_gets_letter_and_its_units(cast, as_):
    make_ready(cast)
    change(cast, DEPTH, 40, "shallow rootzone over chalk")
    assert printed(cast, as_("head")).size_mm == A4_MM
    cast.club.units = Units.US
    cast.club.save()
    paper = printed(cast, as_("head"))
    assert (len(paper.pages), paper.size_mm) == (2, LETTER_MM)
    assert "50 °F; 46.4 °F wanted" in paper.text
    assert "1.97 in 1.57 in (loosened)" in paper.text
    assert not re.search(r"\d ?(mm|°C)\b", paper.text)


def test_the_file_has_a_name_to_keep_it_by(cast, as_):
    answer = as_("head").get(reverse("statement", args=[cast.club.slug, cast.green.pk]))
    assert answer["Content-Disposition"] == 'inline; filename="marram-links-seventh-2026-04-16.pdf"'


def test_it_is_set_in_a_few_seconds(cast, as_):
    """Generous: the machine may be busy. What is measured is printed with -s."""
    make_ready(cast, **FALLS_SHORT)
    printed(cast, as_("staff"))
    began = time.perf_counter()
    printed(cast, as_("staff"))
    took_s = time.perf_counter() - began
    sys.stdout.write(f"\nThe statement is set in {took_s:.2f} s.\n")
    assert took_s < 15
