"""People of a club: inviting, joining, roles, leaving."""

import re

import pytest
from django.urls import reverse

from greens.choices import Role
from greens.models import Membership, Person, TrailLine

pytestmark = pytest.mark.django_db


def invited_secret(mailoutbox) -> str:
    return re.search(r"/invitation/([^/\s]+)/", mailoutbox[-1].body).group(1)


def test_an_invitation_works_once(cast, as_, client, mailoutbox, django_capture_on_commit_callbacks):
    form = {"name": "Nell Ash", "email": "nell@example.org", "role": Role.STAFF}
    with django_capture_on_commit_callbacks(execute=True):
        as_("head").post(reverse("invite", args=[cast.club.slug]), form)
    address = reverse("take_up", args=[invited_secret(mailoutbox)])
    joined = client.post(address, {"name": "Nell Ash", "password": "a-dry-east-wind"})
    assert joined.headers["Location"] == reverse("today", args=[cast.club.slug])
    member = Membership.objects.get(person__email="nell@example.org")
    assert (member.club, member.role) == (cast.club, Role.STAFF)
    assert client.get(address).status_code == 404


def test_the_only_head_greenkeeper_cannot_leave(cast, as_):
    head = as_("head")
    page = head.post(reverse("end_membership", args=[cast.club.slug, cast.head.pk]), follow=True)
    assert "name another one first" in page.content.decode()
    cast.head.refresh_from_db()
    assert cast.head.ended_at is None


def test_a_new_password_gives_the_same_answer_for_unknown_addresses(cast, client, mailoutbox):
    known = client.post(reverse("ask_reset"), {"email": cast.staff.person.email})
    unknown = client.post(reverse("ask_reset"), {"email": "nobody@example.org"})
    assert known.content.decode().replace(cast.staff.person.email, "X") == unknown.content.decode().replace(
        "nobody@example.org", "X"
    )
    assert [mail.to for mail in mailoutbox] == [[cast.staff.person.email]]


def test_a_guesser_is_slowed_and_the_owner_is_never_locked_out(cast, client, time_machine):
    cast.staff.person.set_password("a-dry-east-wind")
    cast.staff.person.save()
    time_machine.move_to("2026-04-16 09:00", tick=False)
    email, address = cast.staff.person.email, reverse("sign_in")
    answers = [client.post(address, {"email": email, "password": "wrong"}).status_code for _ in range(7)]
    assert answers == [200, 200, 200, 200, 200, 429, 429]
    time_machine.shift(31)
    home = client.post(address, {"email": email, "password": "a-dry-east-wind"})
    assert home.status_code == 302


def test_every_change_of_role_stands_in_the_record_of_changes(cast, as_):
    as_("head").post(reverse("change_role", args=[cast.club.slug, cast.staff.pk]), {"role": Role.HEAD})
    line = TrailLine.objects.get(
        noun="membership", noun_pk=cast.staff.pk, deed__startswith="Changed the role"
    )
    assert (line.by, line.changes) == (cast.head, {"role": ["staff", "head"]})


def test_another_clubs_people_do_not_exist_here(cast, as_):
    address = reverse("change_role", args=[cast.club.slug, cast.outsider.pk])
    assert as_("head").get(address).status_code == 404
    assert as_("outsider").get(reverse("people", args=[cast.club.slug])).status_code == 404


def test_somebody_known_elsewhere_joins_a_second_club(
    cast, as_, mailoutbox, django_capture_on_commit_callbacks
):
    email = cast.outsider.person.email
    with django_capture_on_commit_callbacks(execute=True):
        form = {"name": "Otto Vane", "email": email, "role": Role.ADVISER}
        as_("head").post(reverse("invite", args=[cast.club.slug]), form)
    as_("outsider").post(reverse("take_up", args=[invited_secret(mailoutbox)]))
    person = Person.objects.get(email=email)
    assert sorted(person.memberships.values_list("club__slug", flat=True)) == [
        "fernhollow-park",
        "marram-links",
    ]


@pytest.mark.parametrize(
    ("role", "page"), [("head", "today"), ("staff", "today"), ("committee", "greens"), ("adviser", "greens")]
)
def test_everybody_starts_where_their_question_is_answered(cast, as_, role, page):
    assert as_(role).get("/").headers["Location"] == reverse(page, args=[cast.club.slug])


def test_nobody_is_invited_or_named_twice(cast, as_):
    sent = {"name": "Rhona Blair", "email": "rhona@example.org", "role": "staff"}
    invite = reverse("invite", args=[cast.club.slug])
    as_("head").post(invite, sent)
    page = as_("head").post(invite, sent | {"email": "RHONA@example.org", "role": "head"}).content.decode()
    assert "is invited already; the link in that mail still works." in page
    name = reverse("add_by_name", args=[cast.club.slug])
    page = as_("head").post(name, {"name": cast.by_name.name.upper()}).content.decode()
    assert "is there already; add a word that tells the two apart." in page
    assert cast.club.memberships.filter(name="Rhona Blair").count() == 1


def test_who_cannot_sign_in_manages_nothing(cast, as_):
    place = reverse("change_role", args=[cast.club.slug, cast.by_name.pk])
    page = as_("head").post(place, {"role": "head"}).content.decode()
    assert "cannot sign in, so can only be greenstaff" in page
