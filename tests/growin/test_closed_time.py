"""A club's time without feeding, where the programme is changed by hand: a warning stops a plan."""

from datetime import date, timedelta

import pytest

from growin.actions.programme import Doubtful, change_step, issue_programme
from growin.queries.programme import step

pytestmark = pytest.mark.django_db


def test_a_feed_moved_into_the_closed_time_is_asked_about_and_kept_once_it_is_meant(cast):
    issue_programme(establishment=cast.establishment, by=cast.head, on=date(2025, 11, 1))
    cast.club.closed_from, cast.club.closed_until = "04-18", "04-30"
    cast.club.save()
    day = cast.today + timedelta(days=5)
    move = {"establishment": cast.establishment, "by": cast.head, "on": cast.today, "key": "feed-03"}
    with pytest.raises(Doubtful) as doubt:
        change_step(**move, likely=day)
    assert str(doubt.value) == "By the club's own rules nothing is fed from 18 April to 30 April."
    change_step(**move, likely=day, is_meant=True, why="Agreed with the adviser")
    assert step(cast.establishment, "feed-03", cast.today).step.likely == day
