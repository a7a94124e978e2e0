"""Settings: every constant with its source, the club's own values, and what a change would do."""

from datetime import timedelta

import pytest
from django.urls import reverse

from greens.actions.setting import override
from greens.models import Setting, TrailLine
from growin.agronomy.fields import DetailError
from tests.cast import laid_green
from tests.growin.ripe import make_ready

pytestmark = pytest.mark.django_db
DEPTH, TAKEN, WANTED = (
    f"criterion.rooting_turf.{name}" for name in ("depth_mm", "cores_of", "cores_at_least")
)


def address(cast, name: str, *args) -> str:
    return reverse(name, args=[cast.club.slug, *args])


def change(cast, client, key=DEPTH, **more):
    said = {"value": "60", "in_force_from": "2026-04-16", "why": "a deep rootzone", **more}
    return client.post(address(cast, "change_setting", key), said)


def set_value(cast, key: str, value: float, *, on=None, green=None):
    return override(
        club=cast.club,
        by=cast.head,
        key=key,
        value=value,
        why="agreed with the adviser",
        in_force_from=on or cast.today,
        green=green,
    )


def test_everybody_reads_them_and_the_head_greenkeeper_changes_them(cast, as_):
    places = [
        address(cast, "settings"),
        address(cast, "setting", DEPTH),
        address(cast, "change_setting", DEPTH),
    ]
    roles = ("head", "staff", "committee", "adviser", "outsider")
    answers = {role: [as_(role).get(place).status_code for place in places] for role in roles}
    assert answers == {
        "head": [200, 200, 200],
        "staff": [200, 200, 403],
        "committee": [200, 200, 403],
        "adviser": [200, 200, 403],
        "outsider": [404, 404, 404],
    }


def test_every_unpublished_default_asks_for_the_agronomist(cast, as_):
    page = as_("head").get(address(cast, "settings"))
    lines = [line.default for subject in page.context["subjects"] for line in subject.lines]
    assert len(lines) > 150
    assert all(one.mark == "published" or "confirm with your agronomist" in one.provenance for one in lines)


def test_a_change_first_shows_which_verdicts_would_turn_and_keeps_nothing(cast, as_):
    make_ready(cast)
    page = change(cast, as_("head"))
    turned = [(one.establishment.green.name, one.turned) for one in page.context["effects"]]
    assert turned == [("Seventh", [("Rooting", "met", "not met")])]
    assert (page.context["loosens"], Setting.objects.count()) == (False, 0)


def test_the_second_answer_keeps_it_with_a_line_in_the_record_of_changes(cast, as_):
    change(cast, as_("head"), confirmed="1")
    row = Setting.objects.get()
    assert (row.key, row.value, row.by, row.green) == (DEPTH, 60, cast.head, None)
    assert TrailLine.objects.get(noun="setting").changes == {DEPTH: [50.0, 60.0]}
    assert "a deep rootzone" in as_("adviser").get(address(cast, "settings")).content.decode()


def test_loosening_is_said_before_it_is_kept(cast, as_):
    page = change(cast, as_("head"), value="40")
    assert "This loosens a threshold." in page.content.decode()
    gate = change(cast, as_("head"), "gates.turf_autumn.weeks", value="12")
    assert "This loosens a threshold." in gate.content.decode()


def test_one_green_may_have_its_own_and_the_clubs_leaves_it_alone(cast, as_):
    make_ready(cast)
    set_value(cast, DEPTH, 55, green=cast.green)
    page = change(cast, as_("head"), value="65")
    assert page.context["effects"] == []


WRONG = {
    "outside what can be meant": ({"value": "900"}, "cannot be right"),
    "letters": ({"value": "deep"}, "is not a number"),
    "no reason": ({"why": " "}, "This field is required"),
    "a day gone by": ({"in_force_from": "2026-04-15"}, "the first day possible"),
    "years ahead": ({"in_force_from": "2029-04-15"}, "at most a year ahead"),
    "what holds already": ({"value": "50"}, "is what holds already"),
    "a reason without end": ({"why": "x" * 501}, "at most 500"),
}


@pytest.mark.parametrize(("given", "sentence"), WRONG.values(), ids=WRONG)
def test_what_cannot_be_meant_is_refused_in_a_sentence(cast, as_, given, sentence):
    page = change(cast, as_("head"), confirmed="1", **given)
    assert page.status_code == 200
    assert sentence in page.content.decode()
    assert Setting.objects.count() == 0


def test_another_clubs_green_and_unknown_constants_are_refused(cast, as_):
    page = change(cast, as_("head"), green=cast.other_green.pk, confirmed="1")
    assert "green" in page.context["form"].errors
    assert as_("head").get(address(cast, "change_setting", "criterion.moonlight")).status_code == 404
    assert Setting.objects.count() == 0


def test_six_of_five_cores_are_refused(cast):
    with pytest.raises(DetailError, match="from 1 to 5, the number taken"):
        set_value(cast, WANTED, 6)


def test_thresholds_may_not_contradict_each_other_on_a_later_day(cast):
    set_value(cast, TAKEN, 4, on=cast.today + timedelta(days=10))
    with pytest.raises(DetailError, match="from 1 to 4, the number taken"):
        set_value(cast, WANTED, 5)


def test_nor_for_a_green_with_a_value_of_its_own(cast):
    set_value(cast, WANTED, 5, green=cast.green)
    with pytest.raises(DetailError, match="from 1 to 4, the number taken"):
        set_value(cast, TAKEN, 4)


def test_the_page_costs_the_same_for_many_changes(cast, as_, django_assert_num_queries):
    client, place = as_("committee"), address(cast, "settings")
    client.get(place)
    with django_assert_num_queries(5):
        client.get(place)
    for value in (60, 65, 70):
        set_value(cast, DEPTH, value)
    laid_green(cast.club, "Eighth")
    with django_assert_num_queries(5):
        client.get(place)
