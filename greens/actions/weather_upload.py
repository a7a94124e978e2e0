"""Weather from a file: laid by, read as agreed, kept as one piece, undone as one piece."""

import secrets
from collections.abc import Mapping, Sequence
from dataclasses import astuple
from datetime import date, timedelta
from pathlib import Path

from django.db import transaction
from django.utils import timezone

from greens.actions import job as jobs
from greens.actions import trail
from greens.models import Club, Job, Membership, WeatherDay, WeatherUpload
from greens.models.weather_day import BY_HAND
from greens.queries import weather_upload as queries
from greens.validators.weather_file import laid_by, weather_table
from growin.agronomy import weather_merge as merge
from growin.agronomy.weather_columns import Column, recognised
from growin.agronomy.weather_day import WEATHER
from growin.agronomy.weather_table import AIR, NotDaily

IMPORT = "import weather"
LEFT_BEHIND_AFTER = timedelta(days=7)
SAY_HOW_FAR_EVERY = 1_000
SET_BY_AN_IMPORT = (*WEATHER, "source", "is_estimated", "upload")
LONGEST_SOURCE = 60
GONE = "The file was cleared away because nobody kept its days within a week; upload it again."


@transaction.atomic
def take_in(*, club: Club, by: Membership, file) -> WeatherUpload:
    """Lay a file by; its columns are read as the last of its kind, else as its headers say.

    Raises
    ------
    NotKept
        With a sentence, when there is no table in it.
    """
    table = weather_table(file)
    clear_left_behind(club)
    known = queries.remembered(club, table.headers)
    found = recognised(table.headers, queries.usual_units(club))
    upload = WeatherUpload.objects.create(
        club=club,
        name=file.name[-120:],
        key=secrets.token_hex(32),
        headers=table.headers,
        columns=known.columns if known else as_kept(found),
        order=known.order if known else "",
        source=known.source if known else Path(file.name).stem[:40],
        logged_by=by,
    )
    queries.place_of(upload).write_bytes(laid_by(table))
    return upload


def as_kept(columns: Mapping[str, Column]) -> dict[str, list]:
    return {key: list(astuple(column)) for key, column in columns.items()}


def clear_left_behind(club: Club) -> None:
    """Files that nobody kept are gone after a week."""
    old = club.weather_uploads.filter(
        imported_at=None, job=None, made_at__lt=timezone.now() - LEFT_BEHIND_AFTER
    )
    for upload in old:
        forget_file(upload)
    old.delete()


def forget_file(upload: WeatherUpload) -> None:
    place = queries.place_of(upload)
    transaction.on_commit(place.unlink)


def set_columns(*, upload: WeatherUpload, columns: Mapping[str, Column], order: str = "") -> None:
    """Read the columns so; what was said about units before is asked again."""
    upload.columns, upload.order, upload.is_unit_sure = as_kept(columns), order, False
    upload.save(update_fields=["columns", "order", "is_unit_sure"])


def settle_unit(*, upload: WeatherUpload, unit: str) -> None:
    """Temperatures of the air are in this unit, and nobody asks again."""
    for key in upload.columns.keys() & {*AIR}:
        upload.columns[key][1] = unit
    upload.is_unit_sure = True
    upload.save(update_fields=["columns", "is_unit_sure"])


@transaction.atomic
def queue_import(
    *,
    upload: WeatherUpload,
    by: Membership,
    source: str,
    is_estimated: bool = False,
    takes_different: bool = False,
    by_hand_days: Sequence[date] = (),
) -> Job:
    """Have the worker keep its days. ``by_hand_days`` may take the place of what was written by hand."""
    upload.source, upload.is_estimated, upload.takes_different = source, is_estimated, takes_different
    upload.by_hand_days = [on.isoformat() for on in by_hand_days]
    upload.job = jobs.queue_job(
        club=upload.club, by=by, kind=IMPORT, args={"upload": upload.pk}, unique_key=f"weather {upload.pk}"
    )
    upload.save(update_fields=["source", "is_estimated", "takes_different", "by_hand_days", "job"])
    return upload.job


def import_days(job: Job) -> dict:
    """Keep the days of the job's file, all or none; done twice it is done once.

    Raises
    ------
    NotDone
        When the file is gone, or holds no days.
    """
    upload = WeatherUpload.objects.select_related("club", "logged_by").get(pk=job.args["upload"])
    if upload.imported_at:
        return upload.result
    try:
        checked = queries.checked(upload)
    except FileNotFoundError:
        raise jobs.NotDone(GONE) from None
    except NotDaily as refused:
        raise jobs.NotDone(str(refused)) from None
    days = decided(job, upload, checked.meetings)
    return keep(job, upload, days, left_out=len(checked.days.wrong))


def decided(job: Job, upload: WeatherUpload, met: Sequence[merge.Meeting]) -> dict[date, tuple]:
    """What every day that changes becomes, and what it met; says how far it is on the way."""
    agreed, days = {*upload.by_hand_days}, {}
    for number, meeting in enumerate(met):
        if number % SAY_HOW_FAR_EVERY == 0:
            jobs.say_how_far(job, number, len(met))
        is_by_hand = meeting.kind == merge.DIFFERENT_BY_HAND
        takes = meeting.on.isoformat() in agreed if is_by_hand else upload.takes_different
        figures = meeting.outcome(takes)
        if figures is not None:
            days[meeting.on] = (figures, meeting, takes)
    jobs.say_how_far(job, len(met), len(met))
    return days


@transaction.atomic
def keep(job: Job, upload: WeatherUpload, days: Mapping[date, tuple], left_out: int) -> dict:
    """Write all days at once, with what each was before, and one line in the record of changes."""
    mine = WeatherUpload.objects.select_for_update().get(pk=upload.pk)
    if mine.imported_at:
        return mine.result
    there = list(upload.club.weather_days.select_for_update().filter(on__range=span(days)))
    moved = {row.on for row in there if is_otherwise(row, days)}
    rows = {on: one for on, one in days.items() if on not in moved}
    before = {row.on.isoformat(): as_it_was(row) for row in there if row.on in rows}
    WeatherDay.objects.bulk_create(
        [new_day(upload, on, *decision) for on, decision in rows.items()],
        update_conflicts=True,
        unique_fields=["club", "on"],
        update_fields=[*SET_BY_AN_IMPORT],
    )
    mine.before, mine.imported_at = before, timezone.now()
    mine.result = said(rows, before, left_out)
    mine.save(update_fields=["before", "imported_at", "result"])
    trail.write(club=upload.club, by=job.by, deed=f"Weather kept from {upload.name}", row=upload,
                changes=trail.as_created(mine.result))  # fmt: skip
    forget_file(upload)
    return mine.result


def span(days: Mapping[date, tuple]) -> tuple[date, date]:
    return (min(days), max(days)) if days else (date.max, date.min)


def is_otherwise(row: WeatherDay, days: Mapping[date, tuple]) -> bool:
    """Whether somebody changed the day between the look and the deed; then theirs stands."""
    if row.on not in days:
        return False
    met = days[row.on][1].kept
    return met is None or dict(met.figures) != queries.figures_of(row) or met.is_by_hand != row.is_by_hand


def as_it_was(row: WeatherDay) -> dict:
    return {key: trail.plain(getattr(row, key)) for key in (*WEATHER, "source", "is_estimated", "upload_id")}


def new_day(upload: WeatherUpload, on: date, figures: dict, met: merge.Meeting, takes: bool) -> WeatherDay:
    """A day whose own figures stay somebody's says so in its source."""
    is_settled = met.kind == merge.SETTLED
    stays_by_hand = met.kept is not None and met.kept.is_by_hand and not takes and not is_settled
    source = f"{BY_HAND}, the rest from {upload.source}" if stays_by_hand else upload.source
    all_figures = {key: figures.get(key) for key in WEATHER}
    return WeatherDay(
        club_id=upload.club_id,
        on=on,
        source=source[:LONGEST_SOURCE],
        is_estimated=upload.is_estimated,
        upload=upload,
        **all_figures,
    )


def said(rows: Mapping[date, tuple], before: Mapping[str, dict], left_out: int) -> dict:
    first, last = span(rows)
    spans = {"first": first.isoformat(), "last": last.isoformat()} if rows else {}
    return spans | {
        "days_new": len(rows) - len(before),
        "days_changed": len(before),
        "rows_left_out": left_out,
    }


@transaction.atomic
def undo(*, upload: WeatherUpload, by: Membership) -> int:
    """Take its days back; return how many. What stood before stands again, what was written since stays."""
    taken = WeatherUpload.objects.filter(pk=upload.pk, undone_at=None).exclude(imported_at=None)
    if not taken.update(undone_at=timezone.now()):
        return 0
    days = WeatherDay.objects.filter(upload=upload)
    dates = list(days.values_list("on", flat=True))
    uploads = {one.pk: one for one in upload.club.weather_uploads.all()}
    restored = [before for on in dates if (before := standing_before(upload.pk, on, uploads))]
    days.delete()
    WeatherDay.objects.bulk_create(restored)
    changes = {"days": [len(dates), len(restored)]}
    trail.write(
        club=upload.club, by=by, deed=f"Took back the weather from {upload}", row=upload, changes=changes
    )
    return len(dates)


def standing_before(pk: int, on: date, uploads: Mapping[int, WeatherUpload]) -> WeatherDay | None:
    """The day as it stood before an upload, or before those that were themselves undone; None for no day."""
    upload = uploads[pk]
    before = upload.before.get(on.isoformat())
    if before is None:
        return None
    older = before["upload_id"]
    if older in uploads and uploads[older].undone_at:
        return standing_before(older, on, uploads)
    return WeatherDay(club_id=upload.club_id, on=on, **before)
