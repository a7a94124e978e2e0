"""People take away what is kept about them, and are erased; a club is closed, and nothing is left of it."""

import json
from datetime import date
from io import BytesIO
from zipfile import ZipFile

import pytest
from django.apps import apps
from django.conf import settings as site
from django.core.management import CommandError, call_command
from django.urls import reverse

from greens import shelf
from greens.actions import closing
from greens.choices import Role
from greens.models import Club, Entry, Membership, Notice, Person, StoredFile, TrailLine, Wish
from greens.queries.whole_club import tables_of_clubs
from tests.cast import club_with_head, joined, laid_green
from tests.entries import at, logged
from tests.greens.signing_in import PASSWORD, signed_in, with_password
from tests.rows import rows_of

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def media(settings, tmp_path):
    settings.MEDIA_ROOT = tmp_path


class TestErased:
    @pytest.fixture
    def rows(self, cast):
        """Everything that one greenkeeper can have left behind."""
        rows = rows_of(cast.staff, cast.establishment)
        TrailLine.objects.create(
            club=cast.club,
            deed="Callum Reed joined",
            noun="membership",
            changes={"name": ["", "Callum Reed"]},
        )
        Notice.objects.filter(to=cast.staff).update(
            to=cast.head, person=cast.head.person, mail=None, text="Callum Reed cut it."
        )
        return rows  # fmt: skip

    @pytest.fixture
    def gone(self, cast, rows, django_capture_on_commit_callbacks):
        pk, email = cast.staff.pk, cast.staff.person.email
        client = signed_in(with_password(cast.staff.person))
        with django_capture_on_commit_callbacks(execute=True):
            answer = client.post(reverse("erase_me"), {"current": PASSWORD})
        assert answer.headers["Location"] == reverse("sign_in")
        return Membership.objects.get(pk=pk), email

    def test_the_work_stays_and_names_a_place(self, gone, rows):
        member, _ = gone
        entry = Entry.objects.get(pk=rows["entry_id"])
        assert (entry.done_by, str(entry.done_by)) == (member, f"Somebody who left ({member.pk})")
        assert (member.person, member.ended_at is None) == (None, False)

    def test_name_and_address_stand_nowhere_any_more(self, gone):
        """In no column of any table but what people wrote in their own words, of which there is none here."""
        told = [str(list(table.objects.values_list())) for table in apps.get_models()]
        assert [text for text in told if "Callum" in text or gone[1] in text] == []

    def test_photographs_go_with_their_bytes(self, gone, cast):
        assert not StoredFile.objects.exists()
        assert [one.name for one in shelf.everything(f"{cast.club.pk}/") if "photograph" in one.name] == []

    def test_the_pages_of_the_club_go_on(self, gone, cast, as_, rows):
        head = as_("head")
        pages = [
            ("entry", rows["entry_id"]),
            ("changes",),
            ("people",),
            ("diary",),
            ("record", cast.green.pk),
        ]
        assert {head.get(at(cast, *page)).status_code for page in pages} == {200}


def test_the_last_head_greenkeeper_cannot_be_erased(cast):
    client = signed_in(with_password(cast.head.person))
    page = client.post(reverse("erase_me"), {"current": PASSWORD}).content.decode()
    assert "name another one first" in page
    assert Person.objects.filter(pk=cast.head.person.pk).exists()


def test_being_erased_wants_the_password(cast):
    client = signed_in(with_password(cast.staff.person))
    assert "not your present password" in client.post(reverse("erase_me"), {"current": "x"}).content.decode()
    assert Membership.objects.get(pk=cast.staff.pk).name == "Callum Reed"


class TestTakenAway:
    @pytest.fixture
    def taken(self, cast, as_):
        rows_of(cast.staff, cast.establishment)
        logged(cast, by=cast.head)
        answer = as_("staff").get(reverse("about_you"))
        with ZipFile(BytesIO(b"".join(answer.streaming_content))) as zipped:
            return {name: zipped.read(name) for name in zipped.namelist()}

    def test_it_holds_every_row_that_names_them_and_no_other(self, taken, cast):
        kept = {name: json.loads(told) for name, told in taken.items() if name.endswith(".json")}
        assert [one["email"] for one in kept["you.json"]] == [cast.staff.person.email]
        assert [one["club"] for one in kept["membership-person.json"]] == [cast.club.pk]
        assert {one["done_by"] for one in kept["entry-done_by.json"]} == {cast.staff.pk}
        assert {"defect-by.json", "readingset-taken_by.json", "decision-by.json", "token-member.json"} <= set(
            kept
        )

    def test_their_files_are_in_it_and_no_secret_is(self, taken, cast):
        row, names = StoredFile.objects.get(), [name for name in taken if name.startswith("files/")]
        assert names == [f"files/{cast.club.slug}/{row.pk}-front.jpg"]
        told = b"".join(taken.values())
        assert not any(
            secret in told for secret in (b"secret_hash", b"password", b"session_key", b"token of")
        )


class TestClosed:
    @pytest.fixture
    def other(self, cast):
        """A club beside the cast's with a row of every noun, and a greenkeeper of both."""
        member = club_with_head("Heron Water", "Zoe Heron")
        rows_of(member, laid_green(member.club, "Fourth"))
        Membership.objects.create(
            club=member.club, person=cast.staff.person, name="Callum Reed", role=Role.STAFF
        )
        joined(member.club, "Nell Ash", Role.COMMITTEE)
        with_password(member.person)
        return member

    @pytest.fixture
    def closing_club(self, other, django_capture_on_commit_callbacks):
        client, form = signed_in(other.person), {"name": "heron water", "current": PASSWORD}
        with django_capture_on_commit_callbacks(execute=True):
            client.post(reverse("close_club", args=[other.club.slug]), form)
        return Club.objects.get(pk=other.club.pk)

    def test_its_name_and_the_password_are_wanted(self, other):
        client, address = signed_in(other.person), reverse("close_club", args=[other.club.slug])
        for form in ({"name": "Heron", "current": PASSWORD}, {"name": "Heron Water", "current": "x"}):
            assert client.post(address, form).status_code == 200
        assert Club.objects.get(pk=other.club.pk).closes_on is None

    def test_everybody_is_told_at_once_a_week_and_a_day_before(
        self, closing_club, mailoutbox, settings, django_capture_on_commit_callbacks
    ):
        assert closing_club.closes_on == date(2026, 5, 16)
        for day in (date(2026, 5, 8), date(2026, 5, 9), date(2026, 5, 9), date(2026, 5, 15)):
            settings.FIXED_TODAY = day
            with django_capture_on_commit_callbacks(execute=True):
                closing.sweep()
        told = [(mail.to[0], mail.body.split(" for ")[1].split(" more")[0]) for mail in mailoutbox]
        mailboxes = ("zoe.heron@example.org", "callum.reed@example.org", "nell.ash@example.org")
        assert told == [(one, days) for days in ("30", "7", "1") for one in mailboxes]

    def test_it_is_read_and_not_written(self, closing_club, other):
        client, slug = signed_in(other.person), other.club.slug
        assert client.get(reverse("today", args=[slug])).status_code == 200
        assert client.get(reverse("fair_copy", args=[slug])).status_code == 200
        refused = client.post(reverse("add_by_name", args=[slug]), {"name": "Tam"})
        assert (refused.status_code, "being closed" in refused.content.decode()) == (403, True)

    def test_a_head_greenkeeper_keeps_it_after_all(self, closing_club, other, settings):
        signed_in(other.person).post(reverse("keep_club", args=[other.club.slug]))
        settings.FIXED_TODAY = date(2026, 6, 1)
        assert (closing.sweep(), Club.objects.filter(pk=other.club.pk).exists()) == (0, True)


def everything() -> dict[str, list]:
    """Every row of every table of the site."""
    every = apps.get_models(include_auto_created=True)
    ours = [table for table in every if table._meta.app_label in ("greens", "growin")]
    return {table.__name__: list(table.objects.order_by("pk").values_list()) for table in ours}


def test_nothing_is_left_of_a_club_and_the_others_are_untouched(cast, settings):
    rows_of(cast.head, cast.establishment)
    before, lying = everything(), sorted(site.MEDIA_ROOT.rglob("*"))
    member = club_with_head("Heron Water", "Zoe Heron")
    rows_of(member, laid_green(member.club, "Fourth"))
    Membership.objects.create(club=member.club, person=cast.staff.person, name="Callum", role=Role.STAFF)
    Wish.objects.create(member=member).left_out.add(member.club.greens.get())
    signed_in(with_password(member.person))
    filled = {
        table.__name__ for table in tables_of_clubs() if table.objects.count() > len(before[table.__name__])
    }
    assert len(filled) > 30
    Club.objects.filter(pk=member.club.pk).update(closes_on=cast.today)
    settings.FIXED_TODAY = cast.today
    assert closing.sweep() == 1
    assert everything() == before
    assert sorted(site.MEDIA_ROOT.rglob("*")) == lying


def test_the_operator_closes_and_erases_by_command(cast, capsys):
    with pytest.raises(CommandError, match="not being closed"):
        call_command("close_club", cast.club.slug, "--now")
    call_command("close_club", cast.club.slug)
    call_command("close_club", cast.club.slug, "--now")
    assert "Nothing is left of Marram Links." in capsys.readouterr().out
    assert list(Club.objects.values_list("name", flat=True)) == ["Fernhollow Park"]
