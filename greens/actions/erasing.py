"""Somebody is erased: name, address, photographs and voice go, the work stays and names a place."""

import json
import re

from django.db import transaction
from django.db.models import Model, Q
from django.utils import timezone

from greens.actions import device as devices
from greens.actions import trail
from greens.actions.file import remove_file
from greens.actions.people import keep_a_head
from greens.choices import FileKind
from greens.models import (
    Club,
    EntryRevision,
    Link,
    Membership,
    Notice,
    Person,
    ReadingRevision,
    StoredFile,
    TrailLine,
)
from greens.queries import about_person

#: Kept by the site itself in words, where a name may stand: the rest are people's own words.
IN_WORDS = (
    (TrailLine, "club", ("deed",), ("changes",)),
    (Notice, "club", ("subject", "text"), ()),
    (EntryRevision, "entry__club", (), ("as_it_was",)),
    (ReadingRevision, "reading_set__club", (), ("as_it_was",)),
)
PICTURED = (FileKind.PHOTOGRAPH, FileKind.VOICE)


@transaction.atomic
def erase(*, person: Person) -> None:
    """Raises NotPossible for the last head greenkeeper of a club that goes on."""
    for member in about_person.places(person):
        if member.ended_at is None and member.club.closes_on is None:
            keep_a_head(member, leaving=True)
    for member in about_person.places(person):
        blank(member, also=(person.name, person.email))
    devices.end_all(person=person)
    person.delete()


@transaction.atomic
def blank(member: Membership, also: tuple[str, ...] = ()) -> None:
    """A place in a club that nobody can be told from any more."""
    known_as, new = {member.name, *also}, f"Somebody who left ({member.pk})"
    for row in StoredFile.objects.filter(by=member, kind__in=PICTURED):
        remove_file(stored_file=row, by=member)
    Link.objects.filter(membership=member).delete()
    member.tokens.all().delete()
    member.notices.all().delete()
    Membership.objects.filter(pk=member.pk).update(
        name=new, person=None, ended_at=member.ended_at or timezone.now(), is_shared=False
    )
    for table, way, texts, records in IN_WORDS:
        for name in sorted(known_as, key=len, reverse=True):
            blank_in(table, {way: member.club}, name, new, texts, records)
    trail.write(club=member.club, by=None, deed=f"{new} was erased; the work stays", row=member)


def blank_in(table: type[Model], of: dict[str, Club], name: str, new: str, texts, records) -> None:
    """Another word for a name wherever it stands as a whole in these columns."""
    whole = re.compile(rf"(?<!\w){re.escape(name)}(?!\w)")
    holds = Q(*(((f"{column}__icontains"), name) for column in texts + records), _connector=Q.OR)
    for row in table.objects.filter(holds, **of):
        for column in texts:
            limit = table._meta.get_field(column).max_length
            setattr(row, column, whole.sub(new, getattr(row, column))[:limit])
        for column in records:
            said = json.dumps(getattr(row, column), ensure_ascii=False)
            setattr(row, column, json.loads(whole.sub(new, said)))
        row.save(update_fields=[*texts, *records])
