"""Taking readings on a page: choosing, writing, what it says, correcting, taking back."""

from io import BytesIO

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse
from PIL import Image

from greens.models import ReadingSet
from growin.actions.programme import issue_programme
from growin.evidence.due import serves
from growin.models import StepAnswer
from growin.queries.programme import readings_due, steps_in_force
from tests.growin.ripe import read

pytestmark = [pytest.mark.django_db, pytest.mark.every_database]


def address(cast, name: str, *args) -> str:
    return reverse(name, args=[cast.club.slug, *args])


def sheet(cast, **more) -> dict:
    return {"on": "2026-04-16", "taken_by": cast.staff.pk, **more}


def take(cast, client, measure: str, **more):
    return client.post(address(cast, "take_reading", cast.green.pk, measure), sheet(cast, **more))


def test_every_member_sees_readings_and_only_greenstaff_take_them(cast, as_):
    listed, new = (address(cast, name, cast.green.pk) for name in ("readings", "choose_measure"))
    roles = ("head", "staff", "committee", "adviser", "outsider")
    assert [as_(role).get(listed).status_code for role in roles] == [200, 200, 200, 200, 404]
    assert [as_(role).get(new).status_code for role in roles] == [200, 200, 403, 403, 404]


def test_what_is_due_stands_first(cast, as_):
    read(cast, "rooting_depth", [55] * 5, cast.today)
    page = as_("staff").get(address(cast, "choose_measure", cast.green.pk))
    sections = {one.heading: [row.measure.key for row in one.measures] for one in page.context["sections"]}
    assert list(sections) == ["Due now", "Read lately", "Watched", "Kept beside"]
    assert "hand_pull" in sections["Due now"]
    assert sections["Read lately"] == ["rooting_depth"]


def test_before_laying_only_what_needs_no_turf_is_offered(cast, as_):
    type(cast.establishment).objects.update(established_on=None)
    page = as_("staff").get(address(cast, "choose_measure", cast.green.pk))
    offered = [row.measure for one in page.context["sections"] for row in one.measures]
    assert offered
    assert not any(one.needs_turf for one in offered)


def test_five_cores_are_kept_and_said_in_words(cast, as_):
    page = take(cast, as_("staff"), "rooting_depth", values=["62", "48,5", "55", "", "71", "60"])
    kept = ReadingSet.objects.get()
    assert page.headers["Location"] == address(cast, "reading", kept.pk)
    assert kept.values == [62, 48.5, 55, 71, 60]
    words = as_("committee").get(page.headers["Location"]).content.decode()
    assert "59.3 mm in 5 cores" in words
    assert "White roots 50 mm below the turf/rootzone face in 4 of 5 cores; 4 of 5 wanted." in words


def test_a_pasted_list_is_read_as_one_value_a_place(cast, as_):
    take(cast, as_("staff"), "rooting_depth", **{"values-pasted": "62 48,5\n55; 71"})
    assert ReadingSet.objects.get().values == [62, 48.5, 55, 71]


def test_yes_and_no_are_kept_point_by_point(cast, as_):
    answers = {f"values-{n}": "yes" for n in range(1, 10)} | {"values-10": "no"}
    take(cast, as_("staff"), "hand_pull", **answers)
    assert ReadingSet.objects.get().values == [True] * 9 + [False]


def test_hits_are_kept_with_the_points_of_their_frame(cast, as_):
    hits = {"values": ["25", "24", "49/50"], "values-points": "25"}
    take(cast, as_("staff"), "cover", **hits)
    assert ReadingSet.objects.get().values == [
        {"hits": 25, "points": 25},
        {"hits": 24, "points": 25},
        {"hits": 49, "points": 50},
    ]


def test_a_green_speed_is_two_lists_of_rolls(cast, as_):
    rolls = {"values-1-first": ["2.9", "3.0", "3.1"], "values-1-second": ["2,8", "2.9", "2.9"]}
    take(cast, as_("staff"), "green_speed", **rolls)
    assert ReadingSet.objects.get().values == [{"first": [2.9, 3.0, 3.1], "second": [2.8, 2.9, 2.9]}]


def test_the_protocol_is_kept_and_offered_again(cast, as_):
    how = {"hammer_kg": "0.5", "drop_height_m": "0.3", "drop_number": "1"}
    take(cast, as_("staff"), "hardness", values=["88", "92"], **how)
    assert ReadingSet.objects.get().protocol == {"hammer_kg": 0.5, "drop_height_m": 0.3, "drop_number": 1}
    form = as_("staff").get(address(cast, "take_reading", cast.green.pk, "hardness")).context["form"]
    assert form["hammer_kg"].value() == "0.5"


def test_more_boxes_come_without_javascript_and_nothing_is_judged_or_kept(cast, as_):
    page = take(cast, as_("staff"), "rooting_depth", values=["62", "x", "", "", ""], more="1")
    form = page.context["form"]
    assert (form.errors, form.fields["values"].widget.count) == ({}, 10)
    assert 'value="62"' in page.content.decode()
    assert ReadingSet.objects.count() == 0


def test_a_second_tap_keeps_one_set(cast, as_):
    more = {"values": ["62"] * 5, "client_id": "5f0c5cf5-6a3a-4a4e-9d27-0b6d3f6e7a11"}
    first = take(cast, as_("staff"), "rooting_depth", **more)
    second = take(cast, as_("staff"), "rooting_depth", **more)
    assert first.headers["Location"] == second.headers["Location"]
    assert ReadingSet.objects.count() == 1


def test_a_form_sent_again_with_other_values_leads_to_the_set_that_stands(cast, as_):
    sent = {"client_id": "5f0c5cf5-6a3a-4a4e-9d27-0b6d3f6e7a11"}
    take(cast, as_("staff"), "rooting_depth", values=["62"], **sent)
    page = take(cast, as_("staff"), "rooting_depth", values=["26"], **sent).content.decode()
    assert "says otherwise now: correct that set." in page
    assert f'href="{address(cast, "reading", ReadingSet.objects.get().pk)}">To the set that stands' in page


WRONG = {
    "a depth below nothing": ("rooting_depth", {"values": ["-5"]}, "-5 is not possible"),
    "letters for figures": ("rooting_depth", {"values": ["deep"]}, "“deep” is not possible"),
    "200 % cover": ("cover", {"values": ["50"], "values-points": "25"}, "50 is not possible"),
    "no value": ("rooting_depth", {"values": ["", ""]}, "at least one value is needed"),
    "a day to come": ("rooting_depth", {"values": ["50"], "on": "2026-04-17"}, "lies in the future"),
    "before laying": ("rooting_depth", {"values": ["50"], "on": "2025-10-19"}, "from laying or sowing"),
    "before the works": ("moisture", {"values": ["20"], "on": "2025-09-01"}, "start of construction"),
    "no day": ("rooting_depth", {"values": ["50"], "on": "soon"}, "not a day"),
    "a hammer of 50 kg": ("hardness", {"values": ["90"], "hammer_kg": "50"}, "cannot be right"),
    "a layer upside down": (
        "organic_matter",
        {"values": ["4"], "depth_from_mm": "40", "depth_to_mm": "20"},
        "deeper than its top",
    ),
    "a note without end": ("rooting_depth", {"values": ["50"], "note": "x" * 2001}, "at most 2000"),
    "infinity": ("rooting_depth", {"values": ["1e999"]}, "is not possible"),
}


@pytest.mark.parametrize(("measure", "given", "sentence"), WRONG.values(), ids=WRONG)
def test_the_impossible_is_refused_in_a_sentence_and_nothing_is_kept(cast, as_, measure, given, sentence):
    page = take(cast, as_("staff"), measure, **given)
    assert page.status_code == 200
    assert sentence in page.content.decode()
    assert ReadingSet.objects.count() == 0


def test_another_clubs_people_and_greens_are_refused(cast, as_):
    theirs = take(cast, as_("staff"), "rooting_depth", values=["50"], taken_by=cast.outsider.pk)
    assert "taken_by" in theirs.context["form"].errors
    address_of_theirs = address(cast, "take_reading", cast.other_green.pk, "rooting_depth")
    assert as_("staff").post(address_of_theirs, sheet(cast, values=["50"])).status_code == 404
    unknown = address(cast, "take_reading", cast.green.pk, "moonlight")
    assert as_("staff").get(unknown).status_code == 404
    assert ReadingSet.objects.count() == 0


def test_a_correction_keeps_what_was_read_before(cast, as_):
    row = read(cast, "rooting_depth", [62, 55, 71, 58, 6], cast.today)
    fixed = sheet(cast, values=["62", "55", "71", "58", "66"])
    as_("staff").post(address(cast, "correct_reading", row.pk), fixed)
    row.refresh_from_db()
    assert (row.values, row.revision) == ([62, 55, 71, 58, 66], 2)
    page = as_("adviser").get(address(cast, "reading", row.pk)).content.decode()
    assert "62 mm, 55 mm, 71 mm, 58 mm, 6 mm" in page


def test_greenstaff_correct_what_they_logged_and_the_head_everything(cast, as_):
    row = read(cast, "rooting_depth", [62], cast.today)
    ReadingSet.objects.update(logged_by=cast.head)
    places = [address(cast, name, row.pk) for name in ("correct_reading", "take_back_reading")]
    assert [as_("staff").post(place, {}).status_code for place in places] == [403, 403]
    assert [as_("head").post(place, {}).status_code for place in places] == [200, 302]


def test_a_set_taken_back_counts_for_nothing_and_stays_readable(cast, as_):
    row = read(cast, "rooting_depth", [62], cast.today)
    page = as_("staff").post(address(cast, "take_back_reading", row.pk), follow=True)
    assert "Taken back by Callum Reed" in page.content.decode()
    listed = as_("staff").get(address(cast, "readings", cast.green.pk))
    assert list(listed.context["page"]) == []


def test_the_list_costs_the_same_for_one_set_and_for_many(cast, as_, django_assert_num_queries):
    client, place = as_("committee"), address(cast, "readings", cast.green.pk)
    read(cast, "rooting_depth", [62], cast.today)
    with django_assert_num_queries(7):
        client.get(place)
    for _ in range(4):
        read(cast, "moisture", [20, 22, 19], cast.today)
    with django_assert_num_queries(7):
        client.get(place)
    only = client.get(place, {"measure": "moisture"})
    assert [row.measure for row in only.context["page"]] == ["moisture"] * 4


def jpeg(name: str = "core.jpg", side: int = 40) -> SimpleUploadedFile:
    kept = BytesIO()
    Image.new("RGB", (side, side), "tan").save(kept, "JPEG")
    return SimpleUploadedFile(name, kept.getvalue(), "image/jpeg")


def test_photographs_hang_on_the_set(cast, as_):
    pictures = [jpeg("one.jpg"), jpeg("two.jpg")]
    page = take(cast, as_("staff"), "rooting_depth", values=["55"], photographs=pictures)
    row = ReadingSet.objects.get()
    assert sorted(row.files.values_list("taken_on", flat=True)) == [row.on, row.on]
    shown = as_("committee").get(page.headers["Location"]).content.decode()
    assert shown.count('alt="Photograph of the reading"') == 2


def test_a_file_that_is_no_photograph_keeps_nothing(cast, as_):
    wrong = SimpleUploadedFile("core.jpg", b"not a picture", "image/jpeg")
    page = take(cast, as_("staff"), "rooting_depth", values=["55"], photographs=[jpeg(), wrong])
    assert "photographs" in page.context["form"].errors
    assert (ReadingSet.objects.count(), cast.club.files.count()) == (0, 0)


def test_a_set_is_offered_to_the_step_that_asked_for_it_and_ticks_it(cast, as_):
    issue_programme(establishment=cast.establishment, by=cast.head, on=cast.establishment.established_on)
    row = read(cast, "rooting_depth", [55] * 5, cast.today)
    page = as_("staff").get(address(cast, "reading", row.pk))
    step = page.context["offered"][0].step
    assert step.measure == "rooting_depth"
    as_("staff").post(address(cast, "answer_by_reading", row.pk), {"key": step.key})
    answer = StepAnswer.objects.get()
    assert (answer.key, answer.reading_set, answer.on) == (step.key, row, cast.today)


def test_an_unknown_step_is_refused_in_a_sentence(cast, as_):
    row = read(cast, "rooting_depth", [55] * 5, cast.today)
    page = as_("staff").post(address(cast, "answer_by_reading", row.pk), {"key": "moonlight"}, follow=True)
    assert "has no step “moonlight” now" in page.content.decode()


def test_readings_taken_for_a_step_answer_it_and_no_other(cast, as_):
    issue_programme(establishment=cast.establishment, by=cast.head, on=cast.today)
    due = readings_due([cast.establishment], "rooting_depth", cast.today)[0].step
    place = f"{address(cast, 'take_reading', cast.green.pk, 'rooting_depth')}?step={due.key}"
    assert (
        place.partition("/clubs")[2]
        in as_("staff").get(reverse("today", args=[cast.club.slug])).content.decode()
    )
    as_("staff").post(place, sheet(cast, values=["55", "60", "58", "61", "57"]))
    assert StepAnswer.objects.get().key == due.key


def test_a_root_reading_answers_no_roll(cast, as_):
    issue_programme(establishment=cast.establishment, by=cast.head, on=cast.today)
    row = read(cast, "rooting_depth", [62], cast.today)
    roll = steps_in_force([cast.establishment]).filter(kind="roll").first()
    page = as_("staff").post(address(cast, "answer_by_reading", row.pk), {"key": roll.key}, follow=True)
    assert "asks for another reading; this set does not answer it." in page.content.decode()
    assert not StepAnswer.objects.exists()


def test_a_seeded_green_is_not_asked_for_lips_of_turf(cast):
    cast.establishment.kind = "seed"
    assert (serves(cast.establishment, "lip"), serves(cast.establishment, "dip").key) == (None, "levels")
