"""What a member wishes to be told: changed on the site, or ended by the link at the foot of a mail."""

from collections.abc import Iterable

from django.db import transaction
from django.utils import timezone

from greens.actions import trail
from greens.actions.notice import FOR_ALL_GREENS
from greens.models import Green, Membership, Notice, Wish
from greens.models.wish import PACES
from greens.queries import wish as queries


@transaction.atomic
def change_wishes(
    *, member: Membership, paces: dict[str, str], left_out: Iterable[Green], no_mail: bool = False, **times
) -> Wish:
    """Keep the wishes, and mail what waits as they now say."""
    usual = PACES[member.role]
    differs = {kind: pace for kind, pace in paces.items() if usual.get(kind) != pace}
    row, _ = Wish.objects.get_or_create(member=member)
    since = (row.no_mail_since or timezone.now()) if no_mail else None
    changes = trail.change(row, {"paces": differs, "no_mail_since": since, **times})
    before, wanted = {one.pk for one in row.left_out.all()}, list(left_out)
    if before != {one.pk for one in wanted}:
        row.left_out.set(wanted)
        changes["left out"] = [None, ", ".join(one.name for one in wanted) or "none"]
    if changes:
        deed = f"{member.name} changed what they are told"
        trail.write(club=member.club, by=member, deed=deed, row=row, changes=_in_words(changes))
        mail_anew(row)
    return row


def _in_words(changes: dict) -> dict:
    return {name: [trail.plain(old), trail.plain(new)] for name, (old, new) in changes.items()}


@transaction.atomic
def no_more_mail(*, member: Membership) -> None:
    """Nothing is mailed any more; what they are told stands on the site."""
    row, _ = Wish.objects.get_or_create(member=member)
    if row.no_mail_since is None:
        trail.change(row, {"no_mail_since": timezone.now()})
        trail.write(club=member.club, by=member, deed=f"{member.name} ended all mail", row=row)
        mail_anew(row)


def mail_anew(wish: Wish) -> None:
    """Notices that wait for their mail are due as the wishes say now; of greens left out none is mailed."""
    member, now, out = wish.member, timezone.now(), queries.left_out(wish)
    waiting = list(member.notices.filter(mail=None, seen_at=None, lapsed_at=None).exclude(mail_at=None))
    for row in waiting:
        due = wish.due(row.kind, max(now, row.asleep_until or now), member.club.zone)
        is_mailed = due and (row.green_id not in out or row.kind in FOR_ALL_GREENS)
        row.mail_at, row.period = (due.at, due.period) if is_mailed else (None, "")
    Notice.objects.bulk_update(waiting, ["mail_at", "period"])
