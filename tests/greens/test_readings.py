"""Sets of readings as the record keeps them: one judge, one arrival, revisions, taking back."""

from datetime import date
from uuid import uuid4

import pytest

from greens.actions.readings import Conflict, correct_readings, record_readings, take_back
from greens.actions.setting import override
from greens.models import Green, ReadingRevision, ReadingSet, TrailLine
from greens.queries import readings, settings
from growin.agronomy.fields import DetailError

pytestmark = pytest.mark.django_db


def record(cast, measure="rooting_depth", values=(62, 55), **more):
    known = {"green": cast.green, "by": cast.staff, "taken_by": cast.by_name, "on": cast.today}
    return record_readings(**{**known, "measure": measure, "values": list(values), **more})


def refused(action) -> dict[str, str]:
    with pytest.raises(DetailError) as refusal:
        action()
    return refusal.value.errors


def test_a_set_hangs_on_the_rebuild_of_its_day_and_leaves_one_line(cast):
    row = record(cast)
    assert (row.establishment, row.values, row.revision) == (cast.establishment, [62, 55], 1)
    line = TrailLine.objects.get(noun="readingset")
    assert (line.deed, line.by, line.green) == ("Read: White roots", cast.staff, cast.green)


def test_a_set_that_comes_twice_is_kept_once(cast):
    sent = uuid4()
    assert record(cast, client_id=sent) == record(cast, client_id=sent)
    assert ReadingSet.objects.get().values == [62, 55]


def test_the_same_id_with_other_readings_is_a_conflict_that_names_what_stands(cast):
    sent = uuid4()
    first = record(cast, client_id=sent)
    others = [{"values": [62, 54]}, {"measure": "moisture"}, {"note": "wet"}, {"taken_by": cast.staff}]
    for other in others:
        with pytest.raises(Conflict, match="was kept before as “White roots on 2026-04-16”") as refusal:
            record(cast, client_id=sent, **other)
        assert refusal.value.reading_set == first
    assert ReadingSet.objects.get().values == [62, 55]


def test_a_set_corrected_meanwhile_is_the_same_as_it_was_first_sent(cast):
    sent = uuid4()
    first = record(cast, client_id=sent)
    correct_readings(reading_set=first, by=cast.staff, values=[62, 58])
    correct_readings(reading_set=first, by=cast.staff, values=[61, 58], note="by the ruler")
    assert record(cast, client_id=sent).values == [61, 58]


def test_the_same_id_from_another_club_is_another_set(cast):
    sent = uuid4()
    record(cast, client_id=sent)
    theirs = {"green": cast.other_green, "by": cast.outsider, "taken_by": cast.outsider}
    record(cast, client_id=sent, **theirs)
    assert ReadingSet.objects.count() == 2


def test_everything_wrong_is_said_at_once_and_nothing_is_kept(cast):
    errors = refused(
        lambda: record(
            cast,
            "hardness",
            [900],
            on=date(2026, 5, 1),
            protocol={"hammer_kg": 99},
            taken_by=cast.outsider,
            note="x" * 2001,
        )
    )
    assert set(errors) == {"on", "values", "hammer_kg", "taken_by", "note"}
    assert (ReadingSet.objects.count(), TrailLine.objects.filter(noun="readingset").count()) == (0, 0)


def test_an_unknown_measure_is_refused(cast):
    assert "“moonlight” is not possible" in refused(lambda: record(cast, "moonlight"))["measure"]


@pytest.mark.parametrize(
    ("measure", "on", "right"),
    [
        ("rooting_depth", date(2025, 10, 19), "from laying or sowing, Mon 20 October 2025"),
        ("moisture", date(2025, 9, 7), "from the start of construction, Mon 8 September 2025"),
        ("moisture", date(2026, 4, 17), "today, Thu 16 April 2026, or before"),
    ],
)
def test_a_day_on_which_it_cannot_have_been_read_is_refused(cast, measure, on, right):
    assert right in refused(lambda: record(cast, measure, [20], on=on))["on"]


def test_the_rootzone_may_be_read_before_the_turf_is_down(cast):
    row = record(cast, "infiltration", [310, 280, 295], on=date(2025, 10, 1))
    assert row.establishment == cast.establishment


def test_a_green_without_a_recorded_build_may_be_read_any_day(cast):
    old = Green.objects.create(club=cast.club, name="Practice")
    row = record(cast, "rooting_depth", [80], green=old, on=date(2020, 5, 1))
    assert row.establishment is None


def test_a_correction_keeps_the_old_reading_and_says_what_changed(cast):
    row = record(cast)
    correct_readings(reading_set=row, by=cast.head, values=[62, 56], note="misread")
    row.refresh_from_db()
    kept = ReadingRevision.objects.get()
    assert (row.values, row.revision, kept.number, kept.as_it_was["values"]) == ([62, 56], 2, 1, [62, 55])
    line = TrailLine.objects.filter(deed="Corrected: White roots").get()
    assert line.changes == {"values": [[62, 55], [62, 56]], "note": ["", "misread"]}


def test_a_correction_that_changes_nothing_is_no_revision(cast):
    row = record(cast)
    correct_readings(reading_set=row, by=cast.head, values=["62", "55"])
    assert (ReadingRevision.objects.count(), ReadingSet.objects.get().revision) == (0, 1)


def test_a_correction_is_judged_like_a_new_set(cast):
    row = record(cast)
    assert set(refused(lambda: correct_readings(reading_set=row, by=cast.head, values=[-1]))) == {"values"}
    assert ReadingSet.objects.get().values == [62, 55]


def test_taking_back_marks_and_never_deletes(cast):
    row = record(cast)
    assert [take_back(reading_set=row, by=cast.staff) for _ in range(2)] == [True, False]
    assert list(readings.on_green(cast.green)) == []
    assert readings.one(cast.club, row.pk).taken_back_by_id == cast.staff.pk
    assert "was taken back" in refused(lambda: correct_readings(reading_set=row, by=cast.head))[""]


def test_a_single_yes_says_yes_and_a_count_says_how_sure(cast):
    alone = record(cast, "irrigation_live", [True])
    ten = record(cast, "hand_pull", [True] * 9 + [False])
    in_force = settings.in_force(cast.club, cast.today)
    assert (alone.in_short(in_force).words, ten.in_short(in_force).words) == (
        "yes.",
        "yes at 9 of 10 points, likely 65 to 98 %.",
    )


def test_how_sure_a_reading_is_goes_by_the_club_s_own_confidence(cast):
    row = record(cast, "hand_pull", [True] * 9 + [False])
    override(club=cast.club, by=cast.head, key="summary.confidence", value=0.5, why="A rough look",
             in_force_from=cast.today)  # fmt: skip
    words = row.in_short(settings.in_force(cast.club, cast.today)).words
    assert words == "yes at 9 of 10 points, likely 82 to 95 %."
