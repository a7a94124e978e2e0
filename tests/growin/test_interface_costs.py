"""What an answer to a program costs: the same number of queries however much there is to tell."""

from datetime import timedelta

import pytest

from growin.interface.endpoints import ENDPOINTS
from growin.models import ProgrammeStep
from tests import rows
from tests.cast import laid_green
from tests.growin.asking import asking, told

pytestmark = pytest.mark.django_db


@pytest.fixture
def ask(cast):
    return asking(cast)


QUERIES = {
    "club": 2,
    "greens": 7,
    "rebuilds": 3,
    "programme": 7,
    "verdict": 10,
    "forecast": 5,
    "diary": 6,
    "readings": 3,
    "weather": 3,
    "decisions": 3,
}


def copied(step, key: str) -> ProgrammeStep:
    """The same step once more under another key."""
    same = {field.attname: getattr(step, field.attname) for field in step._meta.fields if field.name != "id"}
    return ProgrammeStep(**same | {"key": key})


@pytest.mark.parametrize("count", [1, 3])
@pytest.mark.parametrize("one", ENDPOINTS, ids=lambda one: one.name)
def test_an_answer_costs_the_same_for_one_thing_and_for_three(
    one, count, cast, ask, django_assert_num_queries
):
    rebuilds = [
        cast.establishment,
        *(laid_green(cast.club, name) for name in ("Eighth", "Ninth")[: count - 1]),
    ]
    feed = rows.feed(cast.head)
    for number, rebuilt in enumerate(rebuilds):
        rows.feeding(cast.head, rebuilt, feed)
        rows.rooting(cast.head, rebuilt)
        rows.closed(cast.head, rebuilt)
        rows.foreseen(rebuilt)
        step = rows.programme_step(cast.head, rebuilt)
        more = [copied(step, f"feed-{n}") for n in range(count - 1)]
        step.programme.steps.bulk_create(more)
        cast.club.weather_days.create(on=cast.today - timedelta(days=number), min_c=2, max_c=9)
    route = one.route.replace("<int:green_id>", str(cast.green.pk))
    ask(route)
    with django_assert_num_queries(QUERIES[one.name]):
        said = told(ask(route))
    assert len(said.get("items", [None] * count)) == count
