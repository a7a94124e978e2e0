"""Telling people: a row for each of them, once under its key; whoever reads it sees it, or puts it aside."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from celery import current_app
from django.db import transaction
from django.db.models import QuerySet
from django.utils import timezone

from greens.actions import trail
from greens.choices import NoticeKind
from greens.models import Club, Green, Membership, Notice, Person, Wish
from greens.queries import notice as notices
from greens.queries import wish as wishes

SEND = "send mails"
#: What the key of a notice that was put aside goes on with, when it comes again.
AGAIN = " again "
LONGEST_SUBJECT = Notice._meta.get_field("subject").max_length
#: The order of kinds is their weight; what presses stands before its like.
WEIGHTS = {kind: 2 * place for place, kind in enumerate(NoticeKind.values)}
#: Warnings reach those too who left the green out.
FOR_ALL_GREENS = frozenset({NoticeKind.AGAINST, NoticeKind.OPENING})


@dataclass(frozen=True)
class Telling:
    """One thing to tell: ``key`` names it for good, ``place`` is a path of the site.

    ``presses`` puts it before its like; one that ``asks_word`` must be acknowledged.
    """

    kind: str
    key: str
    subject: str
    text: str
    place: str = ""
    green: Green | None = None
    presses: bool = False
    asks_word: bool = False

    @property
    def weight(self) -> int:
        return WEIGHTS[self.kind] + (0 if self.presses else 1)


def tell(*, club: Club, to: Iterable[Membership], telling: Telling) -> list[Notice]:
    """Tell members once under a key; who cannot sign in is told nothing. Returns what is new."""
    return tell_all(club=club, said=[(one, telling) for one in to])


def tell_all(*, club: Club, said: Sequence[tuple[Membership, Telling]]) -> list[Notice]:
    """Tell each member what is theirs, as they wish to be told; returns what is new. Four queries."""
    said = [(one, telling) for one, telling in said if one.person_id]
    if not said:
        return []
    wished = wishes.of_all(one for one, _ in said)
    out = {pk: wishes.left_out(wish) for pk, wish in wished.items()}
    known, now = notices.with_keys(club, (telling.key for _, telling in said)), timezone.now()
    rows = [
        _row(club, one, telling, None if _is_left_out(telling, out[one.pk]) else wished[one.pk], now)
        for one, telling in said
        if (one.person_id, telling.key) not in known
    ]
    return _keep(rows)


def say_anew(rows: QuerySet[Notice], telling: Telling) -> None:
    """What stands already is said as it stands now: shown so on the site, and so in a mail still to leave."""
    rows.update(
        subject=telling.subject[:LONGEST_SUBJECT],
        text=telling.text,
        weight=telling.weight,
        place=telling.place,
    )


def tell_operators(*, club: Club, operators: Iterable[Person], telling: Telling) -> list[Notice]:
    """Tell those who run the site: at once, by mail, since they have no place in the club."""
    now, known = timezone.now(), notices.with_keys(club, [telling.key])
    return _keep(
        Notice(**_said(club, telling), person=one, mail_at=now)
        for one in operators
        if (one.pk, telling.key) not in known
    )


def _is_left_out(telling: Telling, left_out: set[int]) -> bool:
    named = telling.green is not None and telling.green.pk in left_out
    return named and telling.kind not in FOR_ALL_GREENS


def _row(club: Club, to: Membership, telling: Telling, wish: Wish | None, now: datetime) -> Notice:
    """``wish`` is None where it is mailed in no case."""
    due = wish.due(telling.kind, now, club.zone) if wish else None
    mailed = {"mail_at": due.at, "period": due.period} if due else {}
    return Notice(**_said(club, telling), person=to.person, to=to, **mailed)


def _said(club: Club, telling: Telling) -> dict:
    return {
        "club": club,
        "kind": telling.kind,
        "key": telling.key,
        "green": telling.green,
        "weight": telling.weight,
        "subject": telling.subject[:LONGEST_SUBJECT],
        "text": telling.text,
        "place": telling.place,
        "asks_word": telling.asks_word,
    }


def _keep(rows: Iterable[Notice]) -> list[Notice]:
    rows = list(rows)
    Notice.objects.bulk_create(rows, ignore_conflicts=True)
    now = timezone.now()
    if any(row.mail_at and row.mail_at <= now for row in rows):
        nudge()
    return rows


def nudge() -> None:
    """Tell the worker after the commit that there is something to mail; the rows stand when nobody hears."""
    transaction.on_commit(lambda: current_app.send_task(SEND), robust=True)


def supersede(*, club: Club, keys: str) -> int:
    """Notices whose keys begin so no longer hold: no page shows them first, no mail carries them."""
    return notices.of_keys(club, keys).update(lapsed_at=timezone.now())


@transaction.atomic
def see(*, member: Membership, pk: int | None) -> Notice | None:
    """Seen by the one it is for; the first time counts. A warning that is acknowledged leaves a line."""
    rows = notices.of_member(member).filter(pk=pk, seen_at=None)
    if not rows.update(seen_at=timezone.now()):
        return None
    row = Notice.objects.select_related("green", "club").get(pk=pk)
    if row.asks_word:
        deed = f"Acknowledged: {row.subject}"
        trail.write(club=row.club, by=member, deed=deed, row=row, green=row.green)
    return row


def see_all(*, member: Membership) -> int:
    """Everything that stands before a member is seen, but for warnings: each of those wants its own word."""
    standing = notices.standing(member, timezone.now()).filter(asks_word=False)
    return standing.order_by().update(seen_at=timezone.now())


@transaction.atomic
def put_aside(*, member: Membership, pk: int | None, until: date) -> bool:
    """Out of sight until that day, then told again, by mail too where the member is mailed such things.

    What was told and mailed stays as it was; a notice of its own says it again.
    """
    row = notices.standing(member, timezone.now()).filter(pk=pk).first()
    if row is None:
        return False
    wish, club = wishes.of(member), member.club
    wakes = wish.wakes(until, club.zone)
    Notice.objects.filter(pk=row.pk).update(asleep_until=wakes, lapsed_at=timezone.now())
    row.pk, row.mail, row.period, row.asleep_until = None, None, "", wakes
    row.key = f"{row.key.partition(AGAIN)[0]}{AGAIN}{until}"
    row.mail_at = wakes if wish.due(row.kind, wakes, club.zone) else None
    row.save(force_insert=True)
    return True
