"""Photographs and documents: bytes outside the web root under a random key, words in the record."""

import secrets
from datetime import date
from uuid import UUID

from django.conf import settings
from django.db import IntegrityError, transaction

from greens.actions import trail
from greens.choices import FileKind
from greens.models import Club, Entry, Green, Membership, Product, ReadingSet, StoredFile
from greens.queries import diary, files, readings
from greens.validators.attachment import prepare_attachment
from greens.validators.upload import NotKept, Prepared, megabytes, prepare


@transaction.atomic
def store_file(
    *,
    club: Club,
    by: Membership,
    upload,
    kind: FileKind,
    taken_on: date,
    green: Green | None = None,
    entry: Entry | None = None,
    reading_set: ReadingSet | None = None,
    product: Product | None = None,
    caption: str = "",
    fixed_point: str = "",
    client_id: UUID | None = None,
) -> StoredFile:
    """Keep an upload, raw or already prepared by its form field. Raises NotKept."""
    ready = upload if isinstance(upload, Prepared) else prepare(upload, kind)
    refuse_over_quota(club, ready)
    row = StoredFile.objects.create(
        club=club,
        green=green,
        entry=entry,
        reading_set=reading_set,
        product=product,
        kind=kind,
        key=secrets.token_hex(32),
        name=ready.name,
        content_type=ready.content_type,
        size_bytes=ready.size_bytes,
        taken_on=taken_on,
        caption=caption,
        fixed_point=fixed_point,
        client_id=client_id,
        by=by,
    )
    write_bytes(row, ready)
    deed = f"Stored the {FileKind(kind).label.lower()} {caption or ready.name}"
    trail.write(club=club, by=by, deed=deed, row=row, green=green)
    return row


def attach(*, club: Club, by: Membership, of: UUID, client_id: UUID, upload) -> StoredFile:
    """Hang a photograph or a voice note on the entry or set that came under the sender's id ``of``.

    One that arrived before under its own ``client_id`` is returned as it stands.
    Raises NotKept, also where nothing came under ``of`` or what came was taken back.
    """
    try:
        return files.attached(club, client_id) or _attach(club, by, of, client_id, upload)
    except IntegrityError:
        return files.attached(club, client_id)


def _attach(club: Club, by: Membership, of: UUID, client_id: UUID, upload) -> StoredFile:
    entry, reading_set = diary.arrived(club, of), readings.arrived(club, of)
    row = entry or reading_set
    if row is None:
        raise NotKept("The entry that this belongs to is not kept yet: keep it first, then send this again.")
    if row.taken_back_at:
        raise NotKept(f"“{row}” was taken back; nothing is hung on it any more.")
    ready = upload if isinstance(upload, Prepared) else prepare_attachment(upload)
    return store_file(
        club=club,
        by=by,
        upload=ready,
        kind=FileKind.VOICE if ready.is_sound else FileKind.PHOTOGRAPH,
        taken_on=row.on,
        green=green_of(entry) if entry else reading_set.green,
        entry=entry,
        reading_set=reading_set,
        client_id=client_id,
    )


def green_of(entry: Entry) -> Green | None:
    """The green of an entry of one green."""
    lines = list(entry.lines.select_related("green"))
    return lines[0].green if len(lines) == 1 else None


def refuse_over_quota(club: Club, ready: Prepared) -> None:
    Club.objects.select_for_update().get(pk=club.pk)
    kept, most = files.bytes_kept(club), settings.CLUB_QUOTA_BYTES
    if kept + ready.size_bytes > most:
        raise NotKept(
            f"{ready.name} has {megabytes(ready.size_bytes)}; {club.name} has {megabytes(most - kept)} "
            f"of its {megabytes(most)} left. Remove files that are no longer needed."
        )


def write_bytes(row: StoredFile, ready: Prepared) -> None:
    files.place_of(row).write_bytes(ready.content)
    if ready.small:
        files.place_of(row, small=True).write_bytes(ready.small)


@transaction.atomic
def remove_file(*, stored_file: StoredFile, by: Membership) -> None:
    """Take a file out for good; that it was there stays in the record of changes."""
    places = [files.place_of(stored_file), files.place_of(stored_file, small=True)]
    deed = f"Removed the {stored_file.get_kind_display().lower()} {stored_file}"
    trail.write(club=stored_file.club, by=by, deed=deed, row=stored_file, green=stored_file.green)
    stored_file.delete()
    for place in places:
        transaction.on_commit(place.unlink)
