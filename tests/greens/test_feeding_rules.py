"""The club's own rules for feeding: kept by the head greenkeeper, marked in the record, never a refusal."""

from datetime import timedelta

import pytest

from greens.models import Club, TrailLine
from tests.entries import at, label, logged

pytestmark = pytest.mark.django_db
NO_DAY = "“31 February” is not a day of the year; write it as 15 October."
ONE_END = "A closed time has a first and a last day: give both, or neither."
OUT_OF_RANGE = "-1 kg/ha cannot be right; it should lie between 0 and 500 kg/ha."


def sent(**more) -> dict:
    empty = dict.fromkeys(("year_limit_n_kg_ha", "year_limit_p_kg_ha", "closed_from", "closed_until"), "")
    return {"feeding_rules": "No feed within 10 m of the burn.", **empty, **more}


def ruled(cast, **values) -> None:
    Club.objects.filter(pk=cast.club.pk).update(**values)
    cast.club.refresh_from_db()


def fed(cast, kg_ha: float, days_ago: int = 0, **lines):
    """A feed of 10 % of the element over 450 m²."""
    one = label(cast, f"Feed {days_ago}", lines=lines or {"N_total": 10})
    grams = round(kg_ha / 10 * 450 / 0.1)
    return logged(cast, "feed", on=cast.today - timedelta(days=days_ago), products=[(one, grams)])


@pytest.mark.parametrize(
    ("first", "last"),
    [("15 October", "31 January"), ("15/10", "31/1"), ("15.10.", "31.01."), ("15 Oct", "31 Jan")],
)
def test_a_closed_time_is_written_as_people_write_it(cast, as_, first, last):
    answer = as_("head").post(at(cast, "feeding_rules"), sent(closed_from=first, closed_until=last))
    cast.club.refresh_from_db()
    assert (answer.status_code, cast.club.closed_from, cast.club.closed_until) == (302, "10-15", "01-31")
    assert TrailLine.objects.filter(deed="Changed the rules for feeding").exists()
    assert 'value="15 October"' in as_("head").get(at(cast, "feeding_rules")).content.decode()


@pytest.mark.parametrize(
    ("differs", "field", "sentence"),
    [
        ({"closed_from": "31 February"}, "closed_from", NO_DAY),
        ({"closed_from": "15 October"}, "closed_until", ONE_END),
        ({"year_limit_n_kg_ha": "-1"}, "year_limit_n_kg_ha", OUT_OF_RANGE),
    ],
)
def test_what_cannot_be_is_said_beside_its_field(cast, as_, differs, field, sentence):
    page = as_("head").post(at(cast, "feeding_rules"), sent(**differs))
    assert page.context["form"].errors == {field: [sentence]}


def test_only_the_head_greenkeeper_sets_them(cast, as_):
    answers = {who: as_(who).get(at(cast, "feeding_rules")).status_code for who in ("staff", "committee")}
    assert answers == {"staff": 403, "committee": 403}


def test_a_feed_in_the_closed_time_is_kept_and_marked(cast):
    ruled(cast, closed_from="04-01", closed_until="04-30")
    assert fed(cast, 6).over_limit == ["By the club's own rules nothing is fed from 1 April to 30 April."]


def test_a_feed_over_the_limit_of_the_year_is_kept_and_marked(cast):
    ruled(cast, year_limit_n_kg_ha=20)
    assert fed(cast, 15, days_ago=30).over_limit == []
    assert "Seventh has 21 kg N/ha this year with it; the club's own limit is 20 kg N/ha." in (
        fed(cast, 6).over_limit
    )


def test_phosphorus_has_a_limit_of_its_own_as_an_element(cast):
    """A label prints phosphate: 43.6 % of it is phosphorus."""
    ruled(cast, year_limit_p_kg_ha=4)
    said = fed(cast, 10, N_total=10, P2O5=10).over_limit
    assert said == ["Seventh has 4.4 kg P/ha this year with it; the club's own limit is 4 kg P/ha."]


def test_last_years_feeds_do_not_count(cast):
    ruled(cast, year_limit_n_kg_ha=20)
    fed(cast, 18, days_ago=120)
    assert fed(cast, 6).over_limit == []
