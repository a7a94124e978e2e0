"""``manage.py backup``: the database and all files in one archive, proved by restoring it."""

from pathlib import Path

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError

from greens.actions.archive import Broken
from greens.actions.backup import NotBackedUp, back_up
from greens.queries.tables import NotCopied


class Command(BaseCommand):
    help = "Put the database and all files into one archive, prove it by restoring it, take old ones away."

    def add_arguments(self, parser):
        parser.add_argument("--folder", type=Path, default=settings.BACKUP_DIR, help="where archives lie")
        parser.add_argument("--keep", type=int, default=settings.BACKUP_KEEP, help="how many are kept")

    def handle(self, *, folder, keep, **options):
        try:
            made = back_up(folder=folder, keep=keep)
        except (NotBackedUp, NotCopied, Broken) as refused:
            raise CommandError(f"{refused} There is no new backup.") from None
        self.stdout.write(
            f"{made.path}: {made.rows} rows in {len(made.contents.tables)} tables, {made.files} files; "
            f"restored beside the site and compared. {len(made.pruned)} old ones taken away."
        )
