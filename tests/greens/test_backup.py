"""Backups are whole, proved before they count, and put everything back; on both databases."""

import fcntl
import tarfile
from io import StringIO
from pathlib import Path

import pytest
from celery.schedules import crontab
from django.core.management import CommandError, call_command
from django.db import connection

from greens.actions import archive, backup
from greens.actions.archive import Broken
from greens.actions.restore import NotRestored, restore
from greens.config.broker import backed_up
from greens.models import Club, Green, StoredFile
from greens.queries import tables
from greens.queries.tables import Sum
from greens.shelf import Place, everything
from tests.cast import whole_cast
from tests.rows import rows_of

MADE_AT = "2026-04-16T03:15:00+00:00"


@pytest.fixture(autouse=True)
def media(settings, tmp_path):
    settings.MEDIA_ROOT = tmp_path / "media"


@pytest.fixture
def folder(tmp_path, settings) -> Path:
    settings.BACKUP_DIR = tmp_path / "backups"
    return settings.BACKUP_DIR


@pytest.fixture
def full(transactional_db, today):
    """A row of every noun in two clubs, with their files."""
    cast = whole_cast()
    rows_of(cast.staff, cast.establishment)
    rows_of(cast.outsider, cast.other_establishment)


def whole_site() -> tuple[dict, dict]:
    """Everything that is kept: the sum of every table, the bytes of every file."""
    rows = {model._meta.label: tables.summed(model, "default") for model in tables.kept()}
    return rows, {place.name: place.read_bytes() for place in everything()}


def destroy() -> None:
    call_command("flush", interactive=False, verbosity=0)
    for place in everything():
        place.unlink()


@pytest.mark.django_db(transaction=True)
def test_a_destroyed_site_is_restored_as_it_stood(full, folder):
    before, said = whole_site(), StringIO()
    call_command("backup", folder=folder, stdout=said)
    made = next(folder.glob("*.tar.gz"))
    rows, files = (len(one) for one in before)
    assert said.getvalue().startswith(f"{made}: ") and f" {files} files; restored" in said.getvalue()
    assert (made.stat().st_mode & 0o777, folder.stat().st_mode & 0o777) == (0o600, 0o700)
    assert {one.name for one in folder.iterdir()} == {made.name, ".lock"}

    destroy()
    assert (Club.objects.count(), StoredFile.objects.count(), list(everything())) == (0, 0, [])
    call_command("restore", made, stdout=StringIO())
    assert whole_site() == before

    Green.objects.update(name="Changed since")
    with pytest.raises(CommandError, match="This site is not empty: there are rows in"):
        call_command("restore", made)
    assert Green.objects.filter(name="Changed since").exists()
    call_command("restore", made, replace=True, stdout=StringIO())
    assert whole_site() == before
    next_green = Green.objects.create(club=Club.objects.first(), name="New", position=9, area_dm2=1)
    assert next_green.pk > max(Green.objects.exclude(pk=next_green.pk).values_list("pk", flat=True))


# ---- archives that are none -------------------------------------------------------------------------


@pytest.fixture
def packed(tmp_path) -> Path:
    """An archive of a few bytes."""
    Place("1/one").write_bytes(b"a photograph " * 9)
    copy, path = tmp_path / "copy", tmp_path / "greens-1.tar.gz"
    copy.write_bytes(b"a database")
    archive.write(path, made_at=MADE_AT, vendor="other", copy=copy, tables={"greens_club": Sum(2, "x")})
    return path


def repacked(path: Path, *, leave_out: str = "", instead: dict[str, bytes] | None = None) -> None:
    """The same archive without a member, or with other bytes in one."""
    kept = [(name, stream.read()) for name, stream in archive.members(path) if name != leave_out]
    with tarfile.open(path, "w:gz") as out:
        for name, content in kept:
            content = (instead or {}).get(name, content)
            archive.pack(out, name, archive.BytesIO(content), len(content))


def cut(path: Path) -> None:
    path.write_bytes(path.read_bytes()[: path.stat().st_size // 2])


def bent(path: Path) -> None:
    repacked(path, instead={"files/1/one": b"another photograph"})


@pytest.mark.parametrize(
    ("harm", "sentence"),
    [
        (cut, "cannot be read to its end"),
        (bent, "does not hold what it should; the first that differs is files/1/one."),
        (lambda path: repacked(path, leave_out="files/1/one"), "the first that differs is files/1/one."),
        (lambda path: repacked(path, leave_out="contents.json"), "has no list of contents"),
        (lambda path: path.write_text("no archive"), "cannot be read to its end"),
    ],
)
def test_a_harmed_archive_is_found_out_before_anything_is_touched(packed, tmp_path, harm, sentence):
    harm(packed)
    with pytest.raises(Broken) as refused:
        archive.check(packed, copy=tmp_path / "again")
    assert sentence in str(refused.value)


def test_a_sound_archive_says_what_it_holds(packed, tmp_path):
    contents = archive.check(packed, copy=tmp_path / "again")
    assert (contents.made_at, contents.tables) == (MADE_AT, {"greens_club": Sum(2, "x")})
    assert list(contents.members) == ["database", "files/1/one"]
    assert (tmp_path / "again").read_bytes() == b"a database"


@pytest.mark.django_db
def test_a_database_of_another_kind_is_not_put_back(packed):
    with pytest.raises(NotRestored) as refused:
        restore(path=packed)
    assert str(refused.value).startswith(
        f"This archive holds a database of other; this site runs on {connection.vendor}."
    )


@pytest.mark.django_db
def test_no_archive_is_said_to_be_none(tmp_path):
    with pytest.raises(NotRestored, match="There is no archive at"):
        restore(path=tmp_path / "none.tar.gz")


# ---- which of them are kept -------------------------------------------------------------------------


def laid(folder: Path, *days: int) -> list[Path]:
    folder.mkdir()
    found = [folder / f"greens-2026-04-{day:02}T031500Z.tar.gz" for day in days]
    for path in found:
        path.touch()
    return found


def test_the_newest_are_kept_and_the_one_proved_just_now_always(folder):
    one, two, three, four = laid(folder, 1, 2, 3, 4)
    assert backup.prune(folder, 3, newest=four) == [one]
    assert backup.prune(folder, 1, newest=two) == [four, three]  # somebody had set the clock ahead
    assert list(folder.glob("*.tar.gz")) == [two]


def test_a_backup_that_cannot_be_made_takes_nothing_away(folder):
    old = laid(folder, 1, 2)
    with pytest.raises(CommandError, match="Ask for 1 or more. There is no new backup."):
        call_command("backup", folder=folder, keep=0)
    with (folder / ".lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        with pytest.raises(CommandError, match="Another backup is being made in this folder"):
            call_command("backup", folder=folder, keep=1)
    assert sorted(folder.glob("*.tar.gz")) == old


def test_a_database_that_came_back_otherwise_is_no_backup():
    here = {"greens_club": Sum(1, "a")}
    with pytest.raises(Broken, match="The table greens_green is not what it was"):
        backup.refuse_different(here, here | {"greens_green": Sum(0, "")})


def test_the_clock_makes_a_backup_every_day_where_an_hour_is_said():
    assert backed_up(None, "celery") == {}
    line = backed_up((3, 15), "backup")["back up"]
    assert (line["task"], line["schedule"], line["options"]["queue"]) == (
        "back up",
        crontab(minute=15, hour=3),
        "backup",
    )
