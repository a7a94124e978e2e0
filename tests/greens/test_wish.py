"""What a member wishes to be told, and the link that ends all mail."""

from datetime import time

import pytest
from django.core import mail, signing
from django.test import Client

from greens.actions import mail as mails
from greens.actions.letter import token_of
from greens.actions.notice import Telling, tell
from greens.choices import NoticeKind, Pace
from greens.models import TrailLine, Wish
from greens.models.wish import PACES
from greens.queries import wish as queries
from tests.entries import at

pytestmark = pytest.mark.django_db


def sheet(cast, who: str, **differs) -> dict:
    paces = {f"pace_{kind}": pace for kind, pace in PACES[cast[who].role].items()}
    times = {"daily_at": "06:30", "weekly_on": "0", "quiet_from": "21:00", "quiet_until": "06:00"}
    return paces | times | {"greens": [str(cast.green.pk)]} | differs


def test_each_role_is_asked_about_what_it_is_told(cast, as_):
    asked = {
        who: {name for name in as_(who).get(at(cast, "wishes")).context["form"].fields if "pace_" in name}
        for who in ("head", "staff", "committee", "adviser")
    }
    assert len(asked["head"]) == len(NoticeKind)
    assert "pace_stock" not in asked["staff"] | asked["committee"] | asked["adviser"]
    assert all("pace_opening" in names and "pace_against" in names for names in asked.values())


def test_wishes_are_kept_and_written_down(cast, as_):
    sent = sheet(cast, "staff", pace_steps="weekly", daily_at="07:15", weekly_on="4", greens=[])
    assert as_("staff").post(at(cast, "wishes"), sent).status_code == 302
    row = Wish.objects.get(member=cast.staff)
    assert (row.paces, row.daily_at, row.weekly_on) == ({"steps": "weekly"}, time(7, 15), 4)
    assert queries.left_out(row) == {cast.green.pk}
    assert TrailLine.objects.filter(deed="Callum Reed changed what they are told").count() == 1
    form = as_("staff").get(at(cast, "wishes")).context["form"]
    assert (form["pace_steps"].value(), form["greens"].value()) == ("weekly", [])


NO_CHOICE = "Select a valid choice. {} is not one of the available choices."
ONE_END = "Quiet hours have a beginning and an end: give both, or neither."


@pytest.mark.parametrize(
    ("differs", "field", "sentence"),
    [
        ({"daily_at": "half six"}, "daily_at", "This is not a time; write it as 06:30."),
        ({"quiet_until": ""}, "quiet_until", ONE_END),
        ({"pace_steps": "hourly"}, "pace_steps", NO_CHOICE.format("hourly")),
        ({"weekly_on": "9"}, "weekly_on", NO_CHOICE.format("9")),
    ],
)
def test_what_cannot_be_meant_is_said_beside_its_field(cast, as_, differs, field, sentence):
    page = as_("staff").post(at(cast, "wishes"), sheet(cast, "staff", **differs))
    assert page.context["form"].errors == {field: [sentence]}
    assert not Wish.objects.exists()


def test_the_green_of_another_club_cannot_be_named(cast, as_):
    page = as_("staff").post(at(cast, "wishes"), sheet(cast, "staff", greens=[str(cast.other_green.pk)]))
    assert "greens" in page.context["form"].errors


def test_the_link_in_a_mail_ends_all_mail_without_signing_in(cast):
    address = f"/no-more-mail/{token_of(cast.staff)}/"
    strict = Client(enforce_csrf_checks=True)
    assert "End all mail" in strict.get(address).content.decode()
    assert not Wish.objects.exists()
    done = strict.post(address, {"List-Unsubscribe": "One-Click"})
    assert "mails nothing to callum.reed@example.org any more" in done.content.decode()
    told = tell(
        club=cast.club, to=[cast.staff], telling=Telling(NoticeKind.AGAINST, "a", "Opened", "Against it.")
    )
    assert (len(told), mails.send_due(), mail.outbox) == (1, 0, [])


def test_mail_can_be_had_again(cast, as_):
    Client().post(f"/no-more-mail/{token_of(cast.staff)}/")
    assert as_("staff").get(at(cast, "wishes")).context["form"]["no_mail"].value() is True
    as_("staff").post(at(cast, "wishes"), sheet(cast, "staff"))
    assert Wish.objects.get().no_mail_since is None


def test_a_link_that_nobody_signed_ends_nothing(cast):
    signed_for_something_else = signing.dumps(cast.staff.pk, salt="another")
    for token in ("nonsense", signed_for_something_else, "1:x:y"):
        assert Client().post(f"/no-more-mail/{token}/").status_code == 404
    assert not Wish.objects.exists()


def test_the_link_of_somebody_who_left_the_club_ends_nothing(cast):
    token = token_of(cast.staff)
    cast.staff.ended_at = cast.staff.joined_at
    cast.staff.save()
    assert Client().post(f"/no-more-mail/{token}/").status_code == 404


def test_the_usual_wish_of_everybody_is_to_be_warned_at_once():
    assert {kinds[NoticeKind.OPENING] for kinds in PACES.values()} == {Pace.AT_ONCE}
