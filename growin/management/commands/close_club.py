"""``manage.py close_club SLUG``: close a club; with ``--now`` erase at once one that is being closed."""

from django.core.management.base import BaseCommand, CommandError

from greens.actions import closing
from greens.models import Club


class Command(BaseCommand):
    help = "Make a club read only, to be erased after its days of grace; with --now erase it at once."

    def add_arguments(self, parser):
        parser.add_argument("slug")
        parser.add_argument(
            "--now", action="store_true", help="leave no days of grace to a club being closed"
        )

    def handle(self, *, slug, now, **options):
        club = Club.objects.filter(slug=slug).first()
        if club is None:
            raise CommandError(f"There is no club at /clubs/{slug}/.")
        if not now:
            day = closing.begin(club=club, by=None)
            self.stdout.write(f"{club.name} is read only now and will be erased on {day:%d %B %Y}.")
        elif closing.erase(club=club):
            self.stdout.write(f"Nothing is left of {club.name}.")
        else:
            raise CommandError(f"{club.name} is not being closed; run this without --now first.")
