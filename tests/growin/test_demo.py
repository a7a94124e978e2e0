"""The demo's story: whatever the month, in either hemisphere, three greens give three answers."""

import os
from datetime import date

import pytest

from greens.models import Club, Entry, Establishment
from greens.queries import day_state
from growin.evidence import verdict_of
from growin.management.demo.ahead import look_ahead
from growin.management.demo.place import NORTH, SOUTH
from growin.management.demo.story import tell
from growin.queries import decision, forecast, proposal

pytestmark = pytest.mark.django_db
PLACES = {"north": NORTH, "south": SOUTH}
#: A summer of the southern side; April of the northern stands below. All months with GREENS_ALL_STORIES=1.
STORIES = (
    [(place, month) for place in PLACES for month in range(1, 13)]
    if os.environ.get("GREENS_ALL_STORIES")
    else [("south", 2)]
)
IN_PLAY = "in play"


def answer(green_id: int, today: date) -> str:
    rebuilt = Establishment.objects.get(green_id=green_id)
    if decision.play_state(rebuilt, today).is_open:
        return IN_PLAY
    return verdict_of(rebuilt, today).state


@pytest.mark.story
@pytest.mark.parametrize(("place", "month"), STORIES)
def test_three_greens_give_three_answers_with_reasons(place, month, settings):
    today = settings.FIXED_TODAY = date(2027, month, 1)
    greens = tell(PLACES[place], today)
    answers = {part: answer(green_id, today) for part, green_id in greens.items()}
    assert len(set(answers.values())) == 3, answers
    assert answers[IN_PLAY] == IN_PLAY
    for part, green_id in greens.items():
        if answers[part] in ("not ready", "not known"):
            unmet = verdict_of(Establishment.objects.get(green_id=green_id), today).unmet
            assert all(finding.sentences for finding in unmet) and unmet
    assert_it_happened_before(today)
    assert_the_day_has_a_state(greens[IN_PLAY], today)


@pytest.mark.story
def test_the_story_looks_ahead(settings):
    """In mid April: turf of last autumn within weeks, fescue seed of last spring within its second year."""
    today = settings.FIXED_TODAY = date(2027, 4, 12)
    greens = tell(NORTH, today)
    assert {part: answer(green_id, today) for part, green_id in greens.items()} == {
        "in play": IN_PLAY,
        "turfed": "not ready",
        "seeded": "not known",
    }
    look_ahead(Club.objects.get(), today)
    turfed, seeded = (Establishment.objects.get(green_id=greens[part]) for part in ("turfed", "seeded"))
    known = forecast.kept(turfed)
    assert today <= known.p10 <= known.p50 <= date(2027, 7, 1)
    assert [bool(move.because) for move in forecast.moves(turfed)] == [True] * 6
    assert today <= forecast.kept(seeded).p50 <= date(2027, 7, 1)
    assert proposal.open_of(turfed, today).chance is not None
    assert answer(greens["turfed"], today) == "not ready"


def assert_it_happened_before(today: date) -> None:
    assert Entry.objects.count() > 300
    assert Entry.objects.latest("on").on <= today
    assert Club.objects.get().trail.latest("at").at.date() <= today


def assert_the_day_has_a_state(green_id: int, today: date) -> None:
    rebuilt = Establishment.objects.get(green_id=green_id)
    assert day_state.of_green_on(rebuilt.green, today) is not None
