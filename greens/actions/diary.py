"""Logging work, correcting it, taking it back."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date, time, timedelta
from uuid import UUID, uuid4

from django.db import IntegrityError, transaction
from django.utils import timezone

from greens.actions import defect, trail
from greens.actions.file import green_of, store_file
from greens.actions.ledger import write_lines, write_products
from greens.actions.limits import over_limit
from greens.actions.people import NotPossible
from greens.actions.possible import Said, judged
from greens.choices import FileKind, Role
from greens.models import Club, Entry, EntryRevision, Green, Label, Membership
from greens.queries import diary
from growin.agronomy.fields import DetailError
from growin.agronomy.plain_words import day

AT_ONCE = timedelta(minutes=1)


class Conflict(DetailError):
    """Something else was kept already; ``entry`` is what stands."""

    def __init__(self, entry: Entry, sentence: str):
        self.entry = entry
        super().__init__({"entry": sentence})


def record_work(
    *,
    club: Club,
    by: Membership,
    done_by: Membership,
    kind: str,
    on: date,
    greens: Sequence[Green],
    details: Mapping | None = None,
    products: Sequence[tuple[Label, int]] = (),
    note: str = "",
    at_time: time | None = None,
    client_id: UUID | None = None,
    minutes: int | None = None,
    photographs: Sequence = (),
) -> Entry:
    """Keep one piece of work; what goes over a limit is kept too, and marked.

    ``products`` pair a label with g or ml over all the greens together. An entry that
    arrived before under its ``client_id`` is returned as it stands.

    Raises
    ------
    DetailError
        With one sentence for everything that cannot have been; nothing is kept.
    Conflict
        When something else was kept under this ``client_id``.
    NotKept
        For a photograph that cannot be kept.
    """
    said = judged(
        Said(club, kind, on, done_by, tuple(greens), details or {}, tuple(products), note, at_time, minutes)
    )
    known = the_same(club, client_id, said) if client_id else None
    if known:
        return known
    client_id = client_id or uuid4()
    try:
        return keep(said, by, client_id, photographs)
    except IntegrityError:
        return the_same(club, client_id, said)


def the_same(club: Club, client_id: UUID, said: Said) -> Entry | None:
    """The entry that came before under this number, or none; raises Conflict when it says otherwise."""
    entry = diary.arrived(club, client_id)
    if entry is None:
        return None
    first = entry.revisions.order_by("number").first()
    kept = first.as_it_was if first else said_of(entry).content()
    if {name: kept.get(name) for name in said.content()} != said.content():
        raise Conflict(
            entry, f"This form was kept before as “{entry}” and says otherwise now: correct that entry."
        )
    return entry


@transaction.atomic
def keep(said: Said, by: Membership, client_id: UUID, photographs: Sequence) -> Entry:
    entry = Entry.objects.create(
        club=said.club, kind=said.kind, logged_by=by, client_id=client_id, **columns(said)
    )
    fill(entry, said)
    note_defects(entry, by, said)
    store_photographs(entry, by, photographs)
    write_trail(entry, by, f"Logged: {said.work.words}, {day(said.on)}", said)
    return entry


def columns(said: Said) -> dict:
    """What stands in the entry's own row."""
    return {
        "on": said.on,
        "done_by": said.done_by,
        "details": dict(said.details),
        "note": said.note,
        "at_time": said.at_time,
        "minutes": said.minutes,
    }


def fill(entry: Entry, said: Said) -> None:
    """Greens, products, nutrients and what the limits say of them."""
    write_lines(entry, said)
    write_products(entry, said.products, said.area_dm2)
    entry.over_limit = over_limit(said, but_entry=entry.pk)
    Entry.objects.filter(pk=entry.pk).update(over_limit=entry.over_limit)


def note_defects(entry: Entry, by: Membership, said: Said, was: Mapping | None = None) -> None:
    """In the record too, where the entry is one of a defect."""
    rebuilds = [line.establishment for line in said.lines if line.establishment]
    defect.follow(entry, by, rebuilds, said.content(), was or said.content())


def store_photographs(entry: Entry, by: Membership, photographs: Sequence) -> None:
    if not photographs:
        return
    green = green_of(entry)
    for upload in photographs:
        store_file(
            club=entry.club,
            by=by,
            upload=upload,
            kind=FileKind.PHOTOGRAPH,
            green=green,
            entry=entry,
            taken_on=entry.on,
            fixed_point=entry.details.get("point", "")[:60],
        )


def write_trail(entry: Entry, by: Membership, deed: str, said: Said, changes: dict | None = None) -> None:
    green = said.greens[0] if len(said.greens) == 1 else None
    trail.write(club=entry.club, by=by, deed=deed, row=entry, green=green, changes=changes)


def said_of(entry: Entry) -> Said:
    """An entry as it was told."""
    lines, products = list(entry.lines.all()), list(entry.products.all())
    return Said(
        club=entry.club,
        kind=entry.kind,
        on=entry.on,
        done_by=entry.done_by,
        greens=tuple(line.green for line in lines),
        details=entry.details,
        products=tuple((product.label, product.amount) for product in products),
        note=entry.note,
        at_time=entry.at_time,
        minutes=entry.minutes,
    )


def correct_work(
    *, entry: Entry, by: Membership, seen_revision: int | None = None, photographs: Sequence = (), **given
) -> Entry:
    """Keep a new reading of an entry; the old one stays readable as a revision.

    ``given`` holds what differs of on, done_by, greens, details, products, note, at_time and
    minutes. Greens that the entry had keep their area; ``seen_revision`` is the one on screen.

    Raises
    ------
    DetailError
        With one sentence for everything that cannot have been.
    Conflict
        When somebody else corrected or took back the entry meanwhile.
    """
    entry = diary.one(entry.club, entry.pk)
    refuse_stale(entry, seen_revision)
    known_areas = {line.green_id: line.area_dm2 for line in entry.lines.all() if line.area_dm2}
    given = {name: tuple(value) if name in ("greens", "products") else value for name, value in given.items()}
    said = judged(replace(said_of(entry), **given), known_areas)
    return rewrite(entry, by, said, deed="Corrected", photographs=photographs)


def refuse_stale(entry: Entry, seen_revision: int | None) -> None:
    if entry.taken_back_at:
        raise Conflict(entry, "This entry was taken back meanwhile; log the work anew instead.")
    if seen_revision not in (None, entry.revision):
        raise Conflict(entry, "Somebody corrected this entry meanwhile; look at it and correct it again.")


@transaction.atomic
def rewrite(entry: Entry, by: Membership, said: Said, *, deed: str, photographs: Sequence = ()) -> Entry:
    """Put ``said`` in the place of what the entry read, which becomes a revision."""
    before, words = said_of(entry).content(), entry.reads
    was = before | {"reads": words, "over_limit": entry.over_limit}
    if not claim_revision(entry):
        raise Conflict(entry, "Somebody corrected this entry meanwhile; look at it and correct it again.")
    Entry.objects.filter(pk=entry.pk).update(**columns(said))
    EntryRevision.objects.create(entry=entry, number=entry.revision, as_it_was=was, replaced_by=by)
    fill(entry, said)
    note_defects(entry, by, said, before)
    fresh = diary.one(entry.club, entry.pk)
    store_photographs(fresh, by, photographs)
    deed = f"{deed}: {said.work.words}, {day(said.on)}"
    write_trail(entry, by, deed, said, changes=changed_words(words, fresh.reads))
    return fresh


def claim_revision(entry: Entry) -> bool:
    """Count the revision up, unless somebody was quicker."""
    rows = Entry.objects.filter(pk=entry.pk, revision=entry.revision, taken_back_at=None)
    return rows.update(revision=entry.revision + 1) == 1


def changed_words(before: list[tuple[str, str]], after: list[tuple[str, str]]) -> dict:
    """What reads differently, as {line: [from, to]}."""
    old, new = dict(before), dict(after)
    return {name: [old.get(name), new.get(name)] for name in old | new if old.get(name) != new.get(name)}


def may_take_back(entry: Entry, by: Membership) -> bool:
    """Whoever logged it within a minute; the head greenkeeper at any time."""
    if entry.taken_back_at or entry.club_id != by.club_id:
        return False
    just_now = timezone.now() - entry.logged_at <= AT_ONCE
    return by.role == Role.HEAD or (entry.logged_by_id == by.pk and just_now)


@transaction.atomic
def take_back(*, entry: Entry, by: Membership) -> bool:
    """Mark an entry as taken back, never delete it; False when it was already.

    Raises NotPossible when it is too late for the one who logged it.
    """
    if entry.taken_back_at:
        return False
    if not may_take_back(entry, by):
        raise NotPossible("The minute is over: correct it, or ask the head greenkeeper to take it back.")
    rows = Entry.objects.filter(pk=entry.pk, taken_back_at=None)
    if not rows.update(taken_back_at=timezone.now(), taken_back_by=by):
        return False
    defect.withdraw(entry, by)
    write_trail(entry, by, f"Took back: {entry.get_kind_display()}, {day(entry.on)}", said_of(entry))
    return True
