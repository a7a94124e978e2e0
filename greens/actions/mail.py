"""E-mails: gathered from notices that are due, claimed by one sender, tried again with growing pauses.

Sent once: a notice goes into one mail by a conditional update, a mail is claimed by another before it
leaves. Only where a sender dies after the mail left and before it said so is the mail sent again, once its
claim is ten minutes old, under the same Message-ID.
"""

import logging
import time
from contextlib import suppress
from datetime import timedelta
from itertools import groupby
from smtplib import SMTPException, SMTPRecipientsRefused

from django.core.mail import EmailMultiAlternatives, get_connection
from django.db import IntegrityError, transaction
from django.db.models import F
from django.utils import timezone

from greens.actions.letter import letter_of
from greens.actions.notice import nudge
from greens.choices import Sending
from greens.models import Mail, Notice
from greens.queries import mail as mails
from greens.queries import notice as notices

log = logging.getLogger(__name__)

LOST_AFTER = timedelta(minutes=10)
#: Pauses before each further try; after the last the mail is given up, visibly.
PAUSES = tuple(timedelta(minutes=minutes) for minutes in (1, 5, 15, 60, 240, 720))
MOST_GATHERED, MOST_AT_ONCE = 2000, 500
#: A task sends for so long, then leaves the rest to the next.
ENOUGH_S = 3
NOBODY = 550
LAPSED = "What it was to say no longer holds."


def send_due() -> int:
    """Gather what is due into mails and send them; how many left."""
    gather_due()
    return _send_for_a_while()


def gather_due() -> int:
    """Put every notice that is due into a mail, one for each person and occasion; how many were made."""
    rows = notices.to_be_mailed(timezone.now()).only("pk", "club", "person", "period", "mail_at", "to")
    due = sorted(rows[:MOST_GATHERED], key=lambda row: (_bundle(row), row.pk))
    return sum(_gathered(list(some)) for _, some in groupby(due, key=_bundle))


def _bundle(row: Notice) -> tuple:
    return row.club_id, row.person_id, row.period


def _gathered(rows: list[Notice]) -> bool:
    """One mail of notices to one person; false where somebody else was quicker.

    The lowest number among them names it, so that two who gather the same make one.
    """
    first = rows[0]
    key = f"{first.period or 'at once'} {first.pk} {first.mail_at:%Y%m%dT%H%MZ}"
    with suppress(IntegrityError, _Nothing), transaction.atomic():
        mail = Mail.objects.create(
            club_id=first.club_id, person_id=first.person_id, key=key, period=first.period,
            next_try_at=timezone.now(),
        )  # fmt: skip
        free = Notice.objects.filter(pk__in=[row.pk for row in rows], mail=None, lapsed_at=None)
        if not free.update(mail=mail):
            raise _Nothing
        return True
    return False


class _Nothing(Exception):
    """Nothing is left for this mail."""


def _send_for_a_while() -> int:
    """Send what is due over one connection; the next task goes on where this one ends."""
    sent, enough_at, connection = 0, time.monotonic() + ENOUGH_S, get_connection()
    try:
        for mail in _due():
            sent += send(mail, connection)
            if time.monotonic() > enough_at:
                nudge()
                break
    finally:
        with suppress(OSError, SMTPException):
            connection.close()
    return sent


def _due() -> list[Mail]:
    now = timezone.now()
    return list(mails.due(now, now - LOST_AFTER)[:MOST_AT_ONCE])


def send(mail: Mail, connection) -> bool:
    """Whether it left; nothing happens where somebody else has it, or nothing of it holds any more."""
    if not _claimed(mail):
        return False
    row = mails.whole(mail.pk)
    try:
        letter = letter_of(row)
        if letter is None:
            _ours(row).update(state=Sending.NOT_NEEDED, claimed_at=None, error=LAPSED)
            return False
        _post(letter, connection)
    except Exception as failed:  # whatever is wrong with one mail holds up no other
        log.warning("Mail %s could not be sent: %s", row.pk, failed, exc_info=not isinstance(failed, OSError))
        _start_afresh(connection)
        _try_again(row, failed)
        return False
    _ours(row).update(state=Sending.SENT, sent_at=timezone.now(), claimed_at=None, error="")
    return True


def _post(letter: EmailMultiAlternatives, connection) -> None:
    """Through a connection that stays open for the next: one that a letter opens, it closes again."""
    connection.open()
    letter.connection = connection
    letter.send()


def _start_afresh(connection) -> None:
    """A connection that failed once is not used again."""
    with suppress(OSError, SMTPException, AttributeError):
        connection.close()


def _claimed(mail: Mail) -> bool:
    """Ours now, if it still stands as it was read."""
    as_read = Mail.objects.filter(pk=mail.pk, state=mail.state, claimed_at=mail.claimed_at, tries=mail.tries)
    return as_read.update(state=Sending.SENDING, claimed_at=timezone.now(), tries=F("tries") + 1) == 1


def _ours(row: Mail):
    return Mail.objects.filter(pk=row.pk, state=Sending.SENDING, tries=row.tries)


def _try_again(row: Mail, failed: Exception) -> None:
    """Wait a while longer than last time, or give it up: at once where nobody lives at the address."""
    over = row.tries > len(PAUSES) or _is_unknown(failed)
    pause = timedelta(0) if over else PAUSES[row.tries - 1]
    _ours(row).update(
        state=Sending.GIVEN_UP if over else Sending.WAITING,
        next_try_at=timezone.now() + pause,
        claimed_at=None,
        error=_said(failed)[:300],
    )


def _is_unknown(failed: Exception) -> bool:
    """Whether the mail server says that there is no such mailbox."""
    if not isinstance(failed, SMTPRecipientsRefused):
        return False
    return all(code == NOBODY for code, _ in failed.recipients.values())


def _said(failed: Exception) -> str:
    """What went wrong, as the mail server put it."""
    if isinstance(failed, SMTPRecipientsRefused):
        answers = (f"{code} {words.decode(errors='replace')}" for code, words in failed.recipients.values())
        return "; ".join(answers)
    return str(failed) or type(failed).__name__
