"""Telling members: a row first, then an e-mail, claimed by one sender and tried again with growing pauses.

Sent once: a row is claimed by a conditional update before its mail leaves. Only where a sender dies after
the mail left and before it said so is the mail sent again, once its claim is ten minutes old.
"""

import logging
from collections.abc import Iterable
from datetime import timedelta

from celery import current_app
from django.conf import settings
from django.core.mail import EmailMessage
from django.db import transaction
from django.db.models import F
from django.template.loader import render_to_string
from django.utils import timezone

from greens.choices import Sending
from greens.models import Club, Membership, Notice
from greens.queries import notice as notices

log = logging.getLogger(__name__)

SEND = "send notices"
LOST_AFTER = timedelta(minutes=10)
#: Pauses before each further try; after the last the mail is given up, visibly.
PAUSES = tuple(timedelta(minutes=minutes) for minutes in (1, 5, 15, 60, 240, 720))
MOST_AT_ONCE = 100
LONGEST_SUBJECT = Notice._meta.get_field("subject").max_length


def tell(
    *, club: Club, to: Iterable[Membership], key: str, subject: str, text: str, place: str = ""
) -> list[Notice]:
    """Tell members once under a key; who cannot sign in is told nothing. ``place`` is a path of the site.

    Returns the notices that are new.
    """
    known = set(club.notices.filter(key=key).values_list("to", flat=True))
    rows = [
        Notice(
            club=club, to=one, key=key, subject=subject[:LONGEST_SUBJECT], text=text, place=place,
            next_try_at=timezone.now(),
        )
        for one in to
        if one.person_id and one.pk not in known
    ]  # fmt: skip
    Notice.objects.bulk_create(rows, ignore_conflicts=True)
    transaction.on_commit(lambda: current_app.send_task(SEND), robust=True)
    return rows


def supersede(*, club: Club, keys: str) -> None:
    """Notices whose keys begin so no longer hold: they count as seen, and those that wait are not mailed."""
    old = club.notices.filter(key__startswith=keys)
    old.filter(seen_at=None).update(seen_at=timezone.now())
    old.filter(state=Sending.WAITING).update(state=Sending.GIVEN_UP, error="Superseded by a later decision.")


def send_due() -> int:
    """Send what is due; how many mails left."""
    now = timezone.now()
    waiting = list(notices.due(now, now - LOST_AFTER)[:MOST_AT_ONCE])
    return sum(send(one) for one in waiting)


def send(notice: Notice) -> bool:
    """Whether its mail left; nothing happens where somebody else has it."""
    if not _claimed(notice):
        return False
    row = Notice.objects.select_related("to__person", "club").get(pk=notice.pk)
    try:
        mail_of(row).send()
    except OSError as failed:  # SMTP errors among them
        log.warning("Notice %s could not be sent: %s", row.pk, failed)
        _try_again(row, failed)
        return False
    _ours(row).update(state=Sending.SENT, sent_at=timezone.now(), claimed_at=None, error="")
    return True


def _claimed(notice: Notice) -> bool:
    """Ours now, if it still stands as it was read."""
    as_read = Notice.objects.filter(pk=notice.pk, state=notice.state, claimed_at=notice.claimed_at)
    return as_read.update(state=Sending.SENDING, claimed_at=timezone.now(), tries=F("tries") + 1) == 1


def _ours(row: Notice):
    return Notice.objects.filter(pk=row.pk, state=Sending.SENDING, tries=row.tries)


def _try_again(row: Notice, failed: OSError) -> None:
    """Wait a while longer than last time, or give it up."""
    over = row.tries > len(PAUSES)
    pause = timedelta(0) if over else PAUSES[row.tries - 1]
    _ours(row).update(
        state=Sending.GIVEN_UP if over else Sending.WAITING,
        next_try_at=timezone.now() + pause,
        claimed_at=None,
        error=str(failed)[:300],
    )


def mail_of(notice: Notice) -> EmailMessage:
    site = settings.SITE_URL.rstrip("/")
    body = render_to_string("email/notice.txt", {"notice": notice, "address": site + notice.place})
    subject = f"{notice.club.name}: {notice.subject}"
    return EmailMessage(
        subject, body, settings.DEFAULT_FROM_EMAIL, [notice.to.person.email], headers=headers_of(notice)
    )


def headers_of(notice: Notice) -> dict[str, str]:
    """The same Message-ID for every try, so that a mailbox can tell a copy."""
    host = settings.SITE_URL.partition("://")[2].partition("/")[0].partition(":")[0]
    return {"Message-ID": f"<notice-{notice.pk}@{host or 'localhost'}>", "Auto-Submitted": "auto-generated"}


def see(*, member: Membership, pk: int | None) -> bool:
    """Seen by the one it is for; the first time counts."""
    return notices.unseen(member).filter(pk=pk).update(seen_at=timezone.now()) == 1
