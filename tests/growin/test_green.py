"""The list of greens and one green's page: how it is, what it has had, what comes."""

from datetime import date, timedelta

import pytest
from django.urls import reverse

from greens.actions.diary import record_work
from greens.actions.store import add_product
from growin.actions.answer import tick
from growin.actions.programme import issue_programme
from growin.queries import green as queries
from growin.queries import programme
from growin.queries.story import had
from tests.cast import laid_green

pytestmark = pytest.mark.django_db


def logged(cast, kind, on, **more):
    return record_work(
        club=cast.club, by=cast.staff, done_by=cast.staff, kind=kind, on=on, greens=[cast.green], **more
    )


def test_a_green_knows_what_it_has_had(cast):
    """20 kg of a feed with 8 % N on 450 m² are 35.6 kg N/ha; 450 kg of sand 1 kg/m² (unit identities)."""
    feed = add_product(club=cast.club, by=cast.head, kind="granular", name="Eight", lines={"N_ammonium": 8},
                       from_day=date(2026, 1, 1)).labels.get()  # fmt: skip
    sand = add_product(club=cast.club, by=cast.head, kind="sand", name="Sand", lines={},
                       from_day=date(2026, 1, 1), bulk_density_t_m3=1.6).labels.get()  # fmt: skip
    logged(cast, "feed", date(2026, 4, 10), products=[(feed, 20_000)])
    logged(cast, "dressing", date(2026, 4, 11), products=[(sand, 450_000)])
    logged(cast, "cut", date(2026, 4, 12), details={"height_mm": 8})
    found = had(cast.green, date(2026, 1, 1), cast.today)
    assert round(found.n_kg_ha, 1) == 35.6
    assert round(found.sand_kg_m2, 3) == 1.0
    assert (found.cuts, found.last_height_mm, found.last_cut_on) == (1, 8, date(2026, 4, 12))


def test_the_story_begins_with_the_digging_and_marks_every_cut(cast):
    logged(cast, "cut", date(2026, 4, 12), details={"height_mm": 8})
    story = queries.story(cast.green, cast.today)
    assert story.days[0].on == cast.establishment.works_started_on
    assert story.days[-1].on == cast.today
    assert story.turns == ((date(2025, 9, 8), "digging"), (date(2025, 10, 20), "laid"))
    assert story.marks["Cuts"] == (date(2026, 4, 12),)
    assert sum(month.counts[0] for month in story.months) == 1


def test_an_estimated_day_never_passes_as_measured(cast):
    story = queries.story(cast.green, cast.today)
    assert not any(day.is_measured for day in story.days)


def test_the_pages_answer_for_every_reader(cast, as_):
    issue_programme(establishment=cast.establishment, by=cast.head, on=cast.today)
    for role in ("head", "staff", "committee", "adviser"):
        page = as_(role).get(reverse("green", args=[cast.club.slug, cast.green.pk]))
        assert "Not ready" in page.content.decode() or "Not known" in page.content.decode()
    picture = as_("committee").get(reverse("strip", args=[cast.club.slug, cast.green.pk]))
    assert picture.content.startswith(b"<?xml")


def test_a_club_without_a_green_is_told_what_to_do(cast, as_):
    cast.establishment.delete()
    page = as_("head").get(reverse("green", args=[cast.club.slug, cast.green.pk]))
    assert "not entered yet" in page.content.decode()


def test_the_list_costs_the_same_for_one_green_and_for_three(cast, as_, django_assert_num_queries):
    client, address = as_("staff"), reverse("greens", args=[cast.club.slug])
    client.get(address)
    with django_assert_num_queries(15):
        client.get(address)
    for number in range(2):
        laid_green(cast.club, f"Green {number}", established_on=cast.today - timedelta(days=200))
    with django_assert_num_queries(15):
        client.get(address)


def test_what_comes_is_shown_however_much_was_answered_before(cast, as_):
    issue_programme(establishment=cast.establishment, by=cast.head, on=date(2026, 3, 1))
    for one in programme.steps(cast.establishment, cast.today):
        if one.may_be_answered and one.step.likely <= cast.today:
            tick(establishment=cast.establishment, key=one.step.key, by=cast.head, on=cast.today)
    coming = programme.next_steps(cast.establishment, cast.today, 3)
    assert len(coming) == 3
    assert all(one.step.likely > cast.today for one in coming)


def test_what_comes_is_shown_though_the_programme_was_drawn_late(cast):
    """Steps of the days before it was drawn were asked of nobody, and hide none of those to come."""
    issue_programme(establishment=cast.establishment, by=cast.head, on=cast.today)
    shown = queries.page_of(cast.green, cast.today).coming
    assert len(shown) == queries.STEPS_SHOWN
    assert all(one.step.latest >= cast.today for one in shown)
