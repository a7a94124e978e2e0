"""``manage.py restore ARCHIVE``: the site as it stood when the archive was made."""

from pathlib import Path

from django.core.management.base import BaseCommand, CommandError

from greens.actions.archive import Broken
from greens.actions.restore import NotRestored, restore
from greens.queries.tables import NotCopied


class Command(BaseCommand):
    help = "Put an archive of manage.py backup back. Stop the site first, start it again afterwards."

    def add_arguments(self, parser):
        parser.add_argument("archive", type=Path)
        parser.add_argument("--replace", action="store_true", help="over a site that is not empty")

    def handle(self, *, archive, replace, **options):
        try:
            contents = restore(path=archive, replace=replace)
        except (NotRestored, NotCopied, Broken) as refused:
            raise CommandError(str(refused)) from None
        self.stdout.write(
            f"The site stands as it stood at {contents.made_at}: {len(contents.tables)} tables compared, "
            f"{len(contents.members) - 1} files. Run manage.py migrate, then start it."
        )
