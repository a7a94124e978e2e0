"""Chances as people say them."""

import pytest

from growin.agronomy.forecast import chance_words


@pytest.mark.parametrize(
    ("chance", "words"),
    [
        (0.0, "less than 1 in 20"),
        (0.049, "less than 1 in 20"),
        (0.1, "about 1 in 10"),
        (0.34, "about 1 in 3"),
        (0.5, "about 1 in 2"),
        (0.66, "about 2 in 3"),
        (0.93, "about 9 in 10"),
        (1.0, "more than 19 in 20"),
    ],
)
def test_a_chance_is_said_in_few_words(chance, words):
    assert chance_words(chance) == words


def test_the_histories_behind_it_are_said_too():
    assert [chance_words(0.33, count) for count in (0, 1, 3)] == [
        "about 1 in 3, on published durations alone",
        "about 1 in 3, on 1 open history and published durations",
        "about 1 in 3, on 3 open histories and published durations",
    ]
