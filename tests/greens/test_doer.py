"""A device in the shed that several use: it logs, and each time says whose work it was."""

from datetime import timedelta
from uuid import uuid4

import pytest
from django.urls import reverse

from greens.actions.people import NotPossible, change_role, share_device
from greens.models import Entry, Membership, ReadingSet, TrailLine
from tests.entries import at, cut

pytestmark = pytest.mark.django_db
WHO = "Whose work is it?"


@pytest.fixture
def device(cast) -> Membership:
    """Callum's sign-in becomes the shed's."""
    share_device(member=cast.staff, by=cast.head, is_shared=True)
    cast.staff.refresh_from_db()
    return cast.staff


@pytest.fixture
def shed(device, as_):
    return as_("staff")


def name(shed, cast, doer) -> None:
    shed.post(at(cast, "name_doer"), {"doer": doer.pk})


def walk(shed, cast, **more):
    return shed.post(at(cast, "walked", cast.green.pk), {"back": at(cast, "today"), **more})


def who(entry) -> tuple:
    return entry.done_by, entry.logged_by


def test_the_head_greenkeeper_makes_a_device_of_a_place_and_a_person_of_it_again(cast, as_):
    head = as_("head")
    page = head.post(at(cast, "share_device", cast.staff.pk), {"shared": "yes"}, follow=True).content.decode()
    assert "Shared device, used by several" in page
    head.post(at(cast, "share_device", cast.staff.pk))
    cast.staff.refresh_from_db()
    deeds = [line.deed for line in TrailLine.objects.filter(deed__startswith="Callum Reed is").order_by("pk")]
    assert (cast.staff.is_shared, deeds) == (
        False,
        ["Callum Reed is used by several from now on", "Callum Reed is one person's from now on"],
    )


@pytest.mark.parametrize("role", ["head", "committee", "adviser", "by_name"])
def test_only_greenstaff_who_sign_in_become_a_device(cast, role):
    with pytest.raises(NotPossible):
        share_device(member=cast[role], by=cast.head, is_shared=True)


def test_a_device_never_gets_another_role(cast, device):
    with pytest.raises(NotPossible, match="a device that several use"):
        change_role(member=device, by=cast.head, role="committee")


def test_a_named_doer_is_in_the_diary_and_the_device_logged_it(cast, shed, device):
    assert WHO in shed.get(at(cast, "today")).content.decode()
    name(shed, cast, cast.by_name)
    page = shed.get(at(cast, "today")).content.decode()
    assert (WHO in page, "Young Tam logs here" in page) == (False, True)
    walk(shed, cast)
    assert who(Entry.objects.get()) == (cast.by_name, device)


def test_a_tap_before_anybody_is_named_asks_first_and_is_then_done(cast, shed, device):
    asked = walk(shed, cast).content.decode()
    assert ("Who did it?" in asked, "Young Tam" in asked, Entry.objects.exists()) == (True, True, False)
    assert f'<input type="hidden" name="back" value="{at(cast, "today")}">' in asked
    answer = walk(shed, cast, doer=cast.by_name.pk)
    assert (answer.headers["Location"], who(Entry.objects.get())) == (
        at(cast, "today"),
        (cast.by_name, device),
    )


def test_one_tap_for_many_greens_asks_first_too(cast, shed, device):
    sent = {"kind": "walk", "greens": [cast.green.pk], "client_id": str(uuid4())}
    assert "Who did it?" in shed.post(at(cast, "log_at_once"), sent).content.decode()
    shed.post(at(cast, "log_at_once"), sent | {"doer": cast.head.pk})
    assert who(Entry.objects.get()) == (cast.head, device)


def test_a_name_holds_for_half_an_hour(cast, shed, time_machine):
    time_machine.move_to("2026-04-16 09:00", tick=False)
    name(shed, cast, cast.by_name)
    time_machine.shift(timedelta(minutes=29))
    assert WHO not in shed.get(at(cast, "today")).content.decode()
    time_machine.shift(timedelta(minutes=1))
    assert WHO in shed.get(at(cast, "today")).content.decode()


@pytest.mark.parametrize("named", ["staff", "committee", "outsider"])
def test_only_greenstaff_of_this_club_are_named_and_never_the_device(cast, shed, named):
    name(shed, cast, cast[named])
    assert WHO in shed.get(at(cast, "today")).content.decode()


@pytest.mark.parametrize("nonsense", ["", "Tam", "9" * 30, "-1"])
def test_nonsense_names_nobody(cast, shed, nonsense):
    assert shed.post(at(cast, "name_doer"), {"doer": nonsense, "back": at(cast, "today")}).status_code == 302
    assert WHO in shed.get(at(cast, "today")).content.decode()


def test_who_left_the_club_is_named_no_longer(cast, shed):
    name(shed, cast, cast.by_name)
    Membership.objects.filter(pk=cast.by_name.pk).update(ended_at="2026-04-16T08:00Z")
    assert WHO in shed.get(at(cast, "today")).content.decode()


def test_a_form_asks_for_the_name_at_its_head_and_takes_none_for_granted(cast, shed, device):
    sent = {key: value for key, value in cut(cast).items() if key != "done_by"}
    refused = shed.post(at(cast, "log_work", "cut"), sent).content.decode()
    assert ("Say who did it." in refused, Entry.objects.exists()) == (True, False)
    device_named = shed.post(at(cast, "log_work", "cut"), sent | {"done_by": device.pk})
    assert (device_named.status_code, Entry.objects.exists()) == (200, False)
    shed.post(at(cast, "log_work", "cut"), sent | {"done_by": cast.by_name.pk})
    assert who(Entry.objects.get()) == (cast.by_name, device)
    assert "Young Tam logs here" in shed.get(at(cast, "today")).content.decode()


def test_readings_say_who_took_them(cast, shed, device):
    sent = {"on": "2026-04-16", "values_0": "55", "values_boxes": "5", "client_id": str(uuid4())}
    address = at(cast, "take_reading", cast.green.pk, "rooting_depth")
    assert "say who" in shed.get(address).content.decode()
    shed.post(address, sent)
    assert not ReadingSet.objects.exists()


@pytest.mark.parametrize("page", ["people", "tokens", "my_feed", "invite", "changes"])
def test_a_device_is_shown_nothing_that_is_one_persons(cast, shed, page):
    allowed = {"changes": 200}
    assert shed.get(at(cast, page)).status_code == allowed.get(page, 403)


def test_a_device_decides_and_manages_nothing(cast, shed):
    rebuild = cast.establishment.pk
    args = {"decide": rebuild, "rebuild_change": rebuild, "change_role": cast.by_name.pk}
    found = {page: shed.post(at(cast, page, arg)).status_code for page, arg in args.items()}
    assert found == dict.fromkeys(args, 403)


def test_who_signs_in_for_themselves_is_never_asked(cast, as_):
    staff = as_("staff")
    assert WHO not in staff.get(at(cast, "today")).content.decode()
    staff.post(at(cast, "walked", cast.green.pk), {"doer": cast.by_name.pk})
    assert who(Entry.objects.get()) == (cast.staff, cast.staff)


def test_a_name_is_given_in_one_tap_wherever_one_stands(cast, shed):
    back = reverse("diary", args=[cast.club.slug])
    answer = shed.post(at(cast, "name_doer"), {"doer": cast.by_name.pk, "back": back})
    assert answer.headers["Location"] == back
