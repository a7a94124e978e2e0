"""Looking again at a green in play on days 7, 14 and 28 (our judgement from trade practice)."""

from datetime import date, timedelta

import pytest

from growin.agronomy.in_play import DUE, OVERDUE, RECHECK_DAYS, TO_COME, Recheck, looks, recheck

OPENED = date(2026, 4, 20)


def on(day: int) -> date:
    return OPENED + timedelta(days=day)


LOOKS = {
    "the first is to come": (0, None, (7, TO_COME)),
    "asked from two days before": (5, None, (7, DUE)),
    "readings before it do not count": (7, 3, (7, DUE)),
    "readings two days early do": (7, 5, (14, TO_COME)),
    "late after two days": (10, None, (7, OVERDUE)),
    "the next look takes its place": (12, None, (14, DUE)),
    "a look done late leaves the next to come": (10, 10, (14, TO_COME)),
    "the last is asked for two weeks": (42, 14, (28, OVERDUE)),
}


@pytest.mark.parametrize(("today", "read", "expected"), LOOKS.values(), ids=LOOKS)
def test_a_look_is_due_until_something_was_read(today, read, expected):
    day, state = expected
    read_on = None if read is None else on(read)
    assert recheck(OPENED, on(today), read_on) == Recheck(on(day), day, state)


def test_after_the_last_look_nothing_is_asked():
    assert recheck(OPENED, on(30), on(27)) is None
    assert recheck(OPENED, on(400), None) is None
    assert RECHECK_DAYS == (7, 14, 28)


def test_the_look_that_is_due_and_all_to_come_lie_ahead():
    assert [(one.day, one.state) for one in looks(OPENED, on(8), None)] == [
        (7, DUE),
        (14, TO_COME),
        (28, TO_COME),
    ]
    assert [one.day for one in looks(OPENED, on(8), on(7))] == [14, 28]
