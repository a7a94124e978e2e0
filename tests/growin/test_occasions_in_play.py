"""What people are told of greens in play: that one falls back, and that it is to be looked at again."""

from datetime import timedelta

import pytest

from greens.actions.weather import record_day
from greens.choices import NoticeKind
from tests.growin.ripe import make_ready, read
from tests.growin.test_decision import opened
from tests.growin.test_occasions import looked, subjects, told

pytestmark = pytest.mark.django_db


def test_a_green_in_play_that_falls_back_is_told_to_everybody_with_its_stop_rule(cast, settings):
    make_ready(cast)
    opened(cast, cast.today)
    looked(cast)
    read(cast, "joint_gap", [0, 1, 6, 0, 1] * 4, cast.today)
    looked(cast)
    (row,) = told(cast, NoticeKind.PLAY)
    assert row.subject == "Seventh in play: joints not met"
    assert "Its stop rule: Close the green" in row.text
    assert [len(told(cast, NoticeKind.PLAY, who)) for who in ("staff", "committee", "adviser")] == [1, 1, 1]


def test_more_than_five_per_cent_thin_is_the_stop_rule(cast):
    make_ready(cast)
    opened(cast, cast.today)
    read(cast, "footprinting", [5], cast.today)
    looked(cast)
    assert told(cast, NoticeKind.PLAY) == []
    read(cast, "footprinting", [8], cast.today)
    looked(cast)
    (row,) = told(cast, NoticeKind.PLAY)
    assert row.subject == "Seventh in play: at its stop rule"
    assert "on 8 % of it; the stop rule allows 5 %" in row.text


def test_what_was_unmet_when_it_was_opened_against_the_verdict_is_no_fall_back(cast):
    make_ready(cast, joint_gap=[0, 1, 6, 0, 1] * 4)
    opened(cast, cast.today)
    looked(cast)
    assert told(cast, NoticeKind.PLAY) == []
    read(cast, "disease_share", [4], cast.today)
    looked(cast)
    assert subjects(cast, NoticeKind.PLAY) == ["Seventh in play: joints and disease and damage not met"]


def test_winter_is_no_fall_back(cast, settings):
    """Height raised and growth at an end, as every November, are no sign of a green in play."""
    make_ready(cast)
    opened(cast, cast.today)
    looked(cast)
    for back in range(8):
        record_day(club=cast.club, by=cast.head, on=cast.today - timedelta(days=back), min_c=-1, max_c=5)
    read(cast, "height", [8] * 3, cast.today)
    looked(cast)
    assert told(cast, NoticeKind.PLAY) == []


def test_looking_again_after_opening_is_told_when_due_and_when_late(cast, settings):
    opened(cast, cast.today)
    looked(cast, settings, days=2)
    assert told(cast, NoticeKind.RECHECK) == []
    looked(cast, settings, days=7)
    assert subjects(cast, NoticeKind.RECHECK, "staff") == ["Seventh: look again, day 7 in play, due"]
    looked(cast, settings, days=10)
    assert subjects(cast, NoticeKind.RECHECK) == ["Seventh: look again, day 7 in play, overdue"]
    read(cast, "lip", [0] * 20, cast.today + timedelta(days=10))
    looked(cast, settings, days=10)
    assert told(cast, NoticeKind.RECHECK) == []
