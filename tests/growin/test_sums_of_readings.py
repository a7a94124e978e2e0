"""How sure a handful of readings makes us, asked on the page."""

from greens.models import Setting
from tests.growin.test_sums import ON, figures, page, sentences


def test_a_mean_with_its_interval_and_how_many_more(cast, as_):
    answer = page(as_, cast, "mean", values="48 52 61 55 44", half_width="3")
    # By hand: mean 52, standard deviation 6.519; t(4) 2.776 × 6.519 ÷ √5 = 8.094
    assert figures(answer) == {
        "Mean": "52", "Likely between": "43.91 and 60.09", "Standard deviation": "6.52",
    }  # fmt: skip
    # t(20) 2.086 × 6.519 ÷ √21 = 2.967 is the first within 3
    assert answer.context["answer"].notes[1] == "About 16 readings more would show the mean within 3."


def test_the_confidence_is_the_clubs(cast, as_):
    Setting.objects.create(
        club=cast.club, key="interval.confidence", value=0.8, in_force_from=ON, by=cast.head, why="-"
    )
    answer = page(as_, cast, "mean", values="48 52 61 55 44")
    # t(4) at 80 % is 1.533: ± 4.47
    assert figures(answer)["Likely between"] == "47.53 and 56.47"
    assert answer.context["answer"].notes == ("So sure is that: 80 %.",)


def test_a_share_with_its_interval(cast, as_):
    # Newcombe, 1998, method 3: 81 of 263, 0.2553 to 0.3662
    answer = page(as_, cast, "share", hits="81", points="263", least_percent="50")
    assert figures(answer)["Likely between"] == "25.5 and 36.6 %"
    assert (
        answer.context["answer"].notes[1] == "If more turn out alike, none will show that it is above 50 %."
    )
    enough = page(as_, cast, "share", hits="245", points="250", least_percent="95")
    assert enough.context["answer"].notes[1] == "Enough to show that it is above 95 %."


def test_more_hits_than_points_are_refused(cast, as_):
    assert sentences(page(as_, cast, "share", hits="12", points="10")) == [
        "12 hits at 10 points cannot be; at most every point is a hit."
    ]


def test_one_reading_is_refused(cast, as_):
    assert sentences(page(as_, cast, "mean", values="48")) == [
        "One reading says nothing of the mean; give at least 2."
    ]


def test_speed_on_a_slope(cast, as_):
    # Brede, 1990: 7 ft up and 12 ft down are 8.84 ft, 2.69 m
    answer = page(as_, cast, "speed", uphill_m="2.13", downhill_m="3.66")
    assert figures(answer) == {"Level speed": "2.69 m"}
