"""A planned opening day that the forecast has slipped past (marks and steps are our own judgement)."""

from datetime import date, timedelta

import pytest

from growin.agronomy.slipping import FIRST, MARK, WORSE, Slip, is_worse, mark_of, worth_a_word

PLANNED = date(2026, 5, 30)


def before(days: int) -> date:
    return PLANNED - timedelta(days=days)


def slip(days: int | None) -> Slip:
    return Slip(PLANNED, None if days is None else PLANNED + timedelta(days=days))


@pytest.mark.parametrize(
    ("days_left", "mark"),
    [(60, None), (29, None), (28, 28), (15, 28), (14, 14), (8, 14), (7, 7), (4, 7), (3, 3), (0, 3)],
)
def test_the_marks_are_28_14_7_and_3_days_before(days_left, mark):
    assert mark_of(PLANNED, before(days_left)) == mark


@pytest.mark.parametrize(
    ("now", "was", "worse"),
    [(10, 10, False), (12, 10, False), (13, 10, True), (5, 10, False), (None, 10, True), (None, None, False)],
)
def test_it_is_worse_when_the_likely_day_moves_by_three_days_or_out_of_sight(now, was, worse):
    assert is_worse(slip(now), slip(was)) is worse


def test_a_day_that_the_green_will_keep_is_worth_no_word():
    assert worth_a_word(slip(0), before(10), None, None) == ""
    assert worth_a_word(slip(-5), before(10), slip(3), 14) == ""


def test_a_day_gone_by_is_worth_no_word():
    assert worth_a_word(slip(20), before(-1), None, None) == ""


def test_the_first_slip_is_told_however_far_the_day_is():
    assert worth_a_word(slip(1), before(90), None, None) == FIRST
    other = Slip(PLANNED - timedelta(days=7), PLANNED)
    assert worth_a_word(slip(1), before(20), other, 28) == FIRST


def test_after_that_only_marks_and_worse_days_are():
    told = slip(10)
    assert worth_a_word(slip(11), before(60), told, None) == ""
    assert worth_a_word(slip(11), before(28), told, None) == MARK
    assert worth_a_word(slip(11), before(27), told, 28) == ""
    assert worth_a_word(slip(14), before(27), told, 28) == WORSE
    assert worth_a_word(slip(11), before(14), told, 28) == MARK
    assert worth_a_word(slip(11), before(3), told, 7) == MARK


def test_how_far_it_has_slipped_is_known_unless_it_is_out_of_sight():
    assert (slip(9).days, slip(None).days, slip(None).has_slipped) == (9, None, True)
