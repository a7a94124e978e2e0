"""Inviting people, giving them roles, and saying good-bye."""

from django.conf import settings
from django.core.mail import send_mail
from django.db import transaction
from django.template.loader import render_to_string
from django.utils import timezone

from greens.actions import device as devices
from greens.actions import letter, trail
from greens.actions import link as links
from greens.choices import LinkPurpose, Role
from greens.models import Club, Link, Membership, Person
from greens.queries import people


class NotPossible(Exception):
    """A change that would leave the club in a state nobody wants; the message is for people."""


def post(template: str, to: str, subject: str, **words) -> None:
    body = render_to_string(f"email/{template}.txt", words)
    send_mail(subject, body, settings.DEFAULT_FROM_EMAIL, [to])


@transaction.atomic
def add_by_name(*, club: Club, by: Membership, name: str) -> Membership:
    """Greenstaff who have no e-mail: they can be named as the doer of work.

    Raises NotPossible when somebody of that name is there already.
    """
    if people.current(club).filter(name__iexact=name.strip()).exists():
        raise NotPossible(f"{name.strip()} is there already; add a word that tells the two apart.")
    member = Membership.objects.create(club=club, name=name, role=Role.STAFF)
    trail.write(club=club, by=by, deed=f"Added {name} to the greenstaff", row=member)
    return member


@transaction.atomic
def invite(*, club: Club, by: Membership, name: str, email: str, role: Role) -> str:
    """A place in the club and a link to take it up, by e-mail; returns the link's secret.

    Raises NotPossible when the address already belongs to a member.
    """
    known = people.by_email(email)
    if known and people.current(club).filter(person=known).exists():
        raise NotPossible(f"{email} already belongs to {club.name}.")
    if people.invited(club, email).exists():
        raise NotPossible(f"{email} is invited already; the link in that mail still works.")
    member = Membership.objects.create(club=club, name=name, role=role)
    secret = links.make_link(purpose=LinkPurpose.INVITATION, email=email, membership=member)
    trail.write(club=club, by=by, deed=f"Invited {name} as {Role(role).label.lower()}", row=member)
    words = {"club": club, "member": member, "by": by, "address": letter.address_of("take_up", secret)}
    transaction.on_commit(
        lambda: post("invitation", email, f"{club.name}: your place in the greens record", **words)
    )
    return secret


@transaction.atomic
def take_up(*, link: Link, name: str, password: str) -> Person | None:
    """Join with the link of an invitation; none when it was used in the meantime.

    Somebody who already has a password keeps it: the caller lets them sign in first.
    """
    if not links.use_link(link):
        return None
    person, _ = Person.objects.get_or_create(email=link.email, defaults={"name": name})
    if password:
        person.set_password(password)
        person.save()
    trail.change(link.membership, {"person": person, "name": name or person.name})
    trail.write(
        club=link.membership.club, by=link.membership, deed=f"{person.name} joined", row=link.membership
    )
    return person


def offer_reset(*, email: str) -> None:
    """Send a link for a new password, if the address is known; nothing tells the difference outside."""
    person = people.by_email(email)
    if person is None:
        return
    secret = links.make_link(purpose=LinkPurpose.RESET, email=person.email, person=person)
    address = letter.address_of("set_password", secret)
    post("reset", person.email, "A new password", person=person, address=address)


@transaction.atomic
def set_password(*, link: Link, password: str) -> bool:
    """Replace the password; every other open link of the person dies with this one."""
    if not links.use_link(link):
        return False
    change_password(person=link.person, password=password)
    return True


@transaction.atomic
def change_password(*, person: Person, password: str, stays: str | None = None) -> None:
    """A new password signs out everywhere but in the session that ``stays``; open links die."""
    person.set_password(password)
    person.save(update_fields=["password"])
    person.links.filter(used_at=None).update(used_at=timezone.now())
    devices.end_all(person=person, but=stays)
    tell_of_sign_in(person=person, what="has a new password; every other device was signed out")


def tell_of_sign_in(*, person: Person, what: str) -> None:
    """Say to the owner of the mailbox that signing in has changed; the change stands without it."""
    words, to = {"person": person, "what": what}, person.email
    subject = "Your sign-in has changed"
    transaction.on_commit(lambda: post("sign_in_changed", to, subject, **words), robust=True)


@transaction.atomic
def change_role(*, member: Membership, by: Membership, role: Role) -> None:
    """Raises NotPossible for the last head greenkeeper, a role that takes signing in, and a shared device."""
    keep_a_head(member, leaving=role != Role.HEAD)
    if role != Role.STAFF and member.is_shared:
        raise NotPossible(f"{member.name} is a device that several use; make it one person's first.")
    if role != Role.STAFF and member.person_id is None and not member.links.exists():
        raise NotPossible(
            f"{member.name} cannot sign in, so can only be greenstaff; send an invitation first."
        )
    trail.save_changes(
        row=member, values={"role": role}, club=member.club, by=by, deed=f"Changed the role of {member.name}"
    )


@transaction.atomic
def share_device(*, member: Membership, by: Membership, is_shared: bool) -> None:
    """Mark a place in the club as a device that several people use, or as one person's again.

    Raises NotPossible unless it is greenstaff who can sign in.
    """
    if is_shared and member.role != Role.STAFF:
        raise NotPossible(f"A shared device can only be greenstaff; change the role of {member.name} first.")
    if is_shared and member.person_id is None and not member.links.exists():
        raise NotPossible(f"{member.name} cannot sign in, so is no device; send an invitation first.")
    used = "used by several" if is_shared else "one person's"
    deed = f"{member.name} is {used} from now on"
    trail.save_changes(row=member, values={"is_shared": is_shared}, club=member.club, by=by, deed=deed)


@transaction.atomic
def end_membership(*, member: Membership, by: Membership) -> None:
    """The person leaves, the work stays. Raises NotPossible for the last head greenkeeper."""
    keep_a_head(member, leaving=True)
    trail.change(member, {"ended_at": timezone.now()})
    trail.write(club=member.club, by=by, deed=f"{member.name} left the club", row=member)


def keep_a_head(member: Membership, leaving: bool) -> None:
    if leaving and member.role == Role.HEAD and not people.other_heads(member).select_for_update().exists():
        raise NotPossible(
            f"{member.name} is the only head greenkeeper of {member.club.name}; name another one first."
        )
