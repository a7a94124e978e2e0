"""Everything that the site keeps about somebody, found from the tables themselves: none is forgotten."""

import json
from collections.abc import Iterator
from tempfile import TemporaryFile
from zipfile import ZIP_DEFLATED, ZipFile

from django.core.serializers.json import DjangoJSONEncoder
from django.db.models import ForeignKey, QuerySet

from greens.models import Membership, Person, StoredFile
from greens.queries import files, whole_club

#: Of no use to anybody but a thief.
SECRETS = {"password", "secret_hash", "sealed_key", "last_count", "session_key", "key"}


def places(person: Person) -> QuerySet[Membership]:
    """Every place that the person has or had in a club."""
    return person.memberships.select_related("club").order_by("pk")


def naming(person: Person) -> Iterator[tuple[ForeignKey, QuerySet]]:
    """Every column that names the person or a place of theirs, with the rows that do."""
    mine = {Person: [person.pk], Membership: list(places(person).values_list("pk", flat=True))}
    for table in whole_club.tables():
        for link in whole_club.links_of(table):
            if link.related_model in mine:
                yield (
                    link,
                    table.objects.filter(**{f"{link.name}__in": mine[link.related_model]}).order_by("pk"),
                )


def plain(row) -> dict:
    """A row as it can be read elsewhere, without secrets."""
    names = [one for one in row._meta.concrete_fields if one.name not in SECRETS]
    return {one.name: one.value_from_object(row) for one in names}


def stored_by(person: Person) -> QuerySet[StoredFile]:
    """Photographs, voice notes and documents that the person brought in."""
    return StoredFile.objects.filter(by__person=person).select_related("club").order_by("pk")


def packed(person: Person):
    """A ZIP, open to read: a JSON for each column that names the person, and the files they brought in."""
    out = TemporaryFile()  # noqa: SIM115 (the answer closes it)
    with ZipFile(out, "w", ZIP_DEFLATED) as zipped:
        write(zipped, "you.json", [person])
        for link, rows in naming(person):
            if rows.exists():
                write(zipped, f"{link.model._meta.model_name}-{link.name}.json", rows.iterator(2000))
        for row in stored_by(person):
            place = files.place_of(row)
            if place.exists():
                zipped.writestr(f"files/{row.club.slug}/{row.pk}-{row.name}", place.read_bytes())
    out.seek(0)
    return out


def write(zipped: ZipFile, name: str, rows) -> None:
    """Row by row, so that a long record takes no memory."""
    with zipped.open(name, "w") as out:
        for number, row in enumerate(rows):
            said = json.dumps(plain(row), cls=DjangoJSONEncoder, ensure_ascii=False, indent=1)
            out.write((",\n" if number else "[").encode() + said.encode())
        out.write(b"]\n")
