"""The season of a green as a report: figures as everywhere, words for the committee, and as PDF."""

from datetime import date, timedelta

import pytest

from greens import units
from greens.actions.analysis import keep_analysis
from greens.actions.day_state import record_state
from greens.choices import Units
from greens.models import Advice, Club
from growin.exports.season_report import season_report_pdf
from growin.forms.season_report import asked_year
from growin.queries import budget, sand_budget, season_report, years
from growin.queries.season_feeding import band_of
from growin.queries.season_report import SeasonReport
from tests.entries import at, label, logged
from tests.growin.paper import Paper, in_one_line, without_pango
from tests.growin.ripe import read

pytestmark = pytest.mark.django_db
HARDNESS = [78, 80, 79, 82, 84]
FOUND = {"what": "microdochium", "severity": "trace", "share_percent": 1}


@pytest.fixture
def laid_long_ago(cast):
    """Laid in October 2023: its third season runs."""
    cast.establishment.works_started_on = date(2023, 9, 8)
    cast.establishment.established_on = date(2023, 10, 20)
    cast.establishment.save()
    return cast


@pytest.fixture
def worked(laid_long_ago):
    """A season with something of everything, after one with a single cut."""
    cast = laid_long_ago
    logged(cast, on=date(2025, 6, 1))
    feed, sand = label(cast, lines={"N_total": 10, "K2O": 5}), label(cast, "Sand", kind="sand")
    logged(cast, "feed", on=ago(cast, 20), products=[(feed, 9000)])
    for days in (12, 40):
        logged(cast, "dressing", on=ago(cast, days), products=[(sand, 450_000)])
    for days, mm in ((3, 8), (4, 9), (50, 10)):
        logged(cast, on=ago(cast, days), details={"height_mm": mm})
    logged(cast, "watch", on=ago(cast, 9), details=FOUND, note="Front left, in the shade")
    logged(cast, "note", on=ago(cast, 8), details={"text": "Members ask for the flag at the back"})
    for days, state in ((1, "open"), (2, "frosted"), (3, "open")):
        record_state(green=cast.green, by=cast.staff, on=ago(cast, days), state=state)
    for n, gravities in enumerate(HARDNESS):
        read(cast, "hardness", [gravities] * 9, ago(cast, 70 * (len(HARDNESS) - 1 - n)))
    keep_analysis(green=cast.green, by=cast.head, kind="water", on=ago(cast, 5), values={"pH": 7.6})
    Advice.objects.create(green=cast.green, on=ago(cast, 6), words="More air, less water.", by=cast.adviser)
    return cast


def ago(cast, days: int) -> date:
    return cast.today - timedelta(days=days)


def reported(cast, year: int | None = None) -> SeasonReport | None:
    return season_report.of_green(cast.green, cast.today, year)


def shown(cast, client, **asked) -> str:
    return in_one_line(client.get(at(cast, "season_report", cast.green.pk), asked).content.decode())


def test_its_figures_are_those_of_the_years_the_budget_and_the_sand(worked):
    found, on = reported(worked), worked.today
    this_year = years.of_green(worked.green, on).years[0]
    assert (found.year, found.until) == (this_year, on)
    assert found.sand == sand_budget.of_rebuild(worked.establishment, on)
    by_element = {one.element: one.had for one in found.nutrients}
    assert by_element == {
        element: pytest.approx(budget.of_rebuild(worked.establishment, element, on).so_far)
        for element in ("N", "K")
    }
    assert by_element["N"] == pytest.approx(this_year.n_kg_ha)


def test_cuts_stand_month_by_month_with_their_heights(worked):
    found = [(one.first.month, one.cuts, one.highest_mm, one.lowest_mm) for one in reported(worked).cuts]
    assert found == [(2, 1, 10, 10), (4, 2, 9, 8)]


def test_days_findings_sheets_advice_and_notes_stand_in_it(worked):
    found = reported(worked)
    assert found.states == [("Open", 2), ("Frosted", 1)]
    done = found.done
    assert [len(one) for one in (done.health, done.analyses, done.advice, done.notes)] == [1, 1, 1, 1]


def test_the_page_says_in_plain_words_whether_it_gets_better(worked, as_):
    page = shown(worked, as_("committee"))
    assert "Neither" not in page
    for said in (
        "The surface is neither better nor worse as far as can be told: hardness.",
        "It was kept off on 1 of 3 days written down",
        "20 kg/ha; usual in such a season",
        "2 kg/m² in 2 passes",
        "microdochium patch, a trace, 1 %. Front left, in the shade",
        "Members ask for the flag at the back",
        "More air, less water.",
        "pH 7.6",
    ):
        assert said in page


def test_an_earlier_season_ends_with_its_year_and_knows_nothing_later(worked):
    found = reported(worked, 2025)
    assert (found.year.name, found.until, found.year.is_running) == ("2025", date(2025, 12, 31), False)
    assert [one.cuts for one in found.cuts] == [1]
    assert all(on <= found.until for one in found.known.followed for on, _ in one.points)


@pytest.mark.parametrize("name", ["season_report", "season_report_pdf"])
def test_a_season_with_nothing_in_it_sends_to_the_years(worked, as_, name):
    answer = as_("staff").get(at(worked, name, worked.green.pk), {"year": "2019"})
    assert (answer.status_code, answer["Location"]) == (302, at(worked, "years", worked.green.pk))


@pytest.mark.parametrize(
    ("sent", "year"), [("2025", 2025), ("", None), ("last", None), ("٢٠٢٥", None), ("99999", None)]
)
def test_what_is_no_year_asks_for_the_newest(sent, year):
    assert asked_year({"year": sent}) == year


def test_the_band_is_that_of_the_season_which_fills_most_of_the_year(laid_long_ago):
    """Laid on 20 October 2023, its first season ends on 18 October 2024: 80 to 150 kg N/ha (practice)."""
    rebuilt = laid_long_ago.establishment
    first, later = (band_of(rebuilt, date(year, 1, 1), date(year, 12, 31)) for year in (2024, 2025))
    assert (first.last, first.low, first.high) == (date(2024, 10, 18), 80, 150)
    assert (later.first, later.last) == (date(2025, 1, 1), date(2025, 12, 31))


def test_what_went_over_the_clubs_limit_is_said(worked, as_):
    Club.objects.filter(pk=worked.club.pk).update(year_limit_n_kg_ha=15)
    worked.green.refresh_from_db()
    (nitrogen,) = (one for one in reported(worked).nutrients if one.element == "N")
    assert (nitrogen.limit, nitrogen.stands) == (15, "over")
    assert "15, over it" in shown(worked, as_("head"))


def test_a_green_never_rebuilt_has_its_report_too(cast, as_):
    cast.establishment.delete()
    read(cast, "hardness", [70] * 9, cast.today)
    found = reported(cast)
    assert (found.rebuilt, found.sand, found.band) == (None, None, None)
    assert "not by then" in shown(cast, as_("adviser"))


def test_a_report_costs_the_same_after_one_cut_and_after_many(worked, as_, django_assert_num_queries):
    client, place = as_("committee"), at(worked, "season_report", worked.green.pk)
    with django_assert_num_queries(41):
        client.get(place)
    for days in range(15, 35):
        logged(worked, on=ago(worked, days), note="Boxes off")
    with django_assert_num_queries(41):
        client.get(place)


def test_the_years_lead_to_each_report(worked, as_):
    page = as_("staff").get(at(worked, "years", worked.green.pk)).content.decode()
    assert f'href="{at(worked, "season_report", worked.green.pk)}?year=2026"' in page


def test_without_pango_the_page_is_offered_instead(worked, as_, monkeypatch):
    places = (at(worked, "season_report_pdf", worked.green.pk), at(worked, "season_reports_pdf"))
    with without_pango(monkeypatch):
        answers = [as_("staff").get(path) for path in places]
    assert [answer.status_code for answer in answers] == [503, 503]
    assert all("printed from the browser" in answer.content.decode() for answer in answers)


@pytest.mark.pdf
def test_it_is_set_tagged_and_says_what_the_page_says(worked, as_):
    answer = as_("committee").get(at(worked, "season_report_pdf", worked.green.pk))
    assert answer["Content-Disposition"] == 'inline; filename="marram-links-seventh-season-2026.pdf"'
    paper, found = Paper(answer.content), reported(worked)
    assert paper.reader.metadata.title == "Seventh, Marram Links: the season 2026"
    assert 'pdfuaid:part="1"' in paper.root["/Metadata"].get_object().get_data().decode()
    for said in (found.summary, "Nitrogen (N) 20", "2 kg/m² in 2 passes", "April 2026 2 9 to 8"):
        assert said in paper.text
    pictures = [one["/Alt"] for one in paper.tags if one["/S"] == "/Figure"]
    assert pictures == [found.known.in_words, *(one.in_words for one in found.drawn)]
    kinds = [one["/S"] for one in paper.tags]
    assert (kinds.count("/H1"), kinds.count("/Table"), paper.unmarked) == (1, 2, set())


@pytest.mark.pdf
def test_all_greens_stand_in_one_file_in_the_units_that_the_club_reads(worked):
    with units.shown_in(Units.US):
        paper = Paper(season_report_pdf([reported(worked)] * 2))
    assert paper.reader.metadata.title == "Marram Links: the season 2026"
    assert [one["/S"] for one in paper.tags].count("/H1") == 2
    assert ("0.41 lb/1,000 ft²" in paper.text, " kg/ha" in paper.text) == (True, False)
