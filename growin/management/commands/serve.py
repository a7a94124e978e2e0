"""``manage.py serve``: the site of one club on one machine, with its worker, from one process."""

from django.conf import settings
from django.core.management import call_command
from django.core.management.base import BaseCommand

from growin.management.serving import serve


class Command(BaseCommand):
    help = "Bring the database up to date, serve the site and do its long work until Ctrl-C."

    def add_arguments(self, parser):
        parser.add_argument("--host", default="127.0.0.1")
        parser.add_argument("--port", type=int, default=8000)

    def handle(self, *, host, port, **options):
        call_command("migrate", verbosity=0)
        serve(host, port, started=lambda: self.say_where(host, port))

    def say_where(self, host: str, port: int) -> None:
        self.stdout.write(f"The site answers at http://{host}:{port}/ ({settings.SITE_URL}); Ctrl-C ends it.")
        self.stdout.flush()
