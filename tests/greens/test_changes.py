"""The record of changes is read page by page, however long it has become."""

import pytest
from django.urls import reverse

from greens.actions import trail
from greens.models import TrailLine
from greens.queries.trail import LINES_SHOWN, lines_before

pytestmark = pytest.mark.django_db


@pytest.fixture
def lines(cast):
    """Two and a half pages, all of the same moment but the last."""
    count = LINES_SHOWN * 5 // 2
    made = [trail.write(club=cast.club, by=cast.head, deed=f"Deed {n}", row=cast.green) for n in range(count)]
    TrailLine.objects.filter(club=cast.club).update(at=made[0].at)
    TrailLine.objects.filter(pk=made[0].pk).update(at=made[-1].at)
    return list(TrailLine.objects.filter(club=cast.club).order_by("-at", "-pk"))


def test_page_after_page_shows_every_line_once(cast, lines):
    shown, before = lines_before(cast.club, None)
    pages = [shown]
    while before:
        shown, before = lines_before(cast.club, before)
        pages.append(shown)
    assert [len(one) for one in pages] == [LINES_SHOWN, LINES_SHOWN, len(lines) - 2 * LINES_SHOWN]
    assert [line for page in pages for line in page] == lines


def test_a_page_leads_on_to_the_older_lines_and_back_to_the_newest(cast, lines, as_):
    place, head = reverse("changes", args=[cast.club.slug]), as_("head")
    first = head.get(place).content.decode()
    older = f"?before={lines[LINES_SHOWN - 1].pk}"
    assert (f'href="{older}">Older' in first, "The newest" in first) == (True, False)
    assert f'href="{place}">The newest' in head.get(place + older).content.decode()


@pytest.mark.parametrize("before", ["", "x", "-1", "9" * 30, "0", "²"])
def test_an_odd_address_shows_the_newest(cast, lines, as_, before):
    place = reverse("changes", args=[cast.club.slug])
    assert lines[0].deed in as_("head").get(place, {"before": before}).content.decode()


def test_a_line_of_another_club_is_no_place_to_go_on_from(cast, lines):
    other = trail.write(club=cast.outsider.club, by=cast.outsider, deed="Elsewhere", row=cast.other_green)
    assert lines_before(cast.club, other.pk)[0] == lines[:LINES_SHOWN]
