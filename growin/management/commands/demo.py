"""``manage.py demo``: build an invented club in one folder, start the site on it, say how to sign in."""

import os
import secrets
import sys
from datetime import date

from django.conf import settings
from django.core.management import call_command
from django.core.management.base import BaseCommand, CommandError

from greens.actions import mail
from greens.models import Club
from growin.actions import lookout
from growin.management.demo.ahead import look_ahead
from growin.management.demo.place import NORTH, PASSWORD, SIGNING_IN, SOUTH, email
from growin.management.demo.story import tell
from growin.management.serving import serve

MADE_FOR = "told-for"


class Command(BaseCommand):
    help = "Build an invented club with a season of work, serve it on this machine, print the sign-ins."

    def add_arguments(self, parser):
        parser.add_argument("--today", type=iso_day, help="tell the story up to this day (2027-03-01)")
        parser.add_argument("--south", action="store_true", help="a club in the southern hemisphere")
        parser.add_argument("--folder", default=".demo", help="everything it makes lies in here")
        parser.add_argument("--host", default="127.0.0.1")
        parser.add_argument("--port", type=int, default=8000)
        parser.add_argument("--build-only", action="store_true", help="build the club and end")

    def handle(self, *, today, south, folder, host, port, build_only, **options):
        home = settings.BASE_DIR / folder
        if home != settings.DATA_DIR:
            again_in(home, today, host, port)
        self.build(SOUTH if south else NORTH)
        if build_only:
            return
        serve(host, port, started=lambda: self.say_how_to_sign_in(host, port))

    def build(self, place) -> None:
        """Tell the story unless it stands already for this place and day."""
        today = settings.FIXED_TODAY or date.today()
        made, wanted = settings.DATA_DIR / MADE_FOR, f"{place.name} {today.isoformat()}"
        call_command("migrate", verbosity=0)
        if made.exists() and made.read_text() == wanted:
            return
        self.stdout.write(f"Telling the story of {place.name} up to {today:%d %B %Y} …")
        call_command("flush", interactive=False, verbosity=0)
        tell(place, today)
        look_ahead(Club.objects.get(), today)
        lookout.look_round()
        mail.send_due()
        made.write_text(wanted)

    def say_how_to_sign_in(self, host: str, port: int) -> None:
        club = Club.objects.get()
        self.stdout.write(f"\n{club.name} is open at http://{host}:{port}/  (Ctrl-C ends it)\n")
        self.stdout.write(f"Everybody's password: {PASSWORD}")
        for name, role in SIGNING_IN.items():
            self.stdout.write(f"  {email(name):24} {name}, {role.label.lower()}")
        self.stdout.write("")
        self.stdout.flush()


def iso_day(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise CommandError(f"--today is '{text}'; it should be a day such as 2027-03-01.") from None


def key_of(home) -> str:
    """A signing key of the demo's own, the same at every start, so that nobody is signed out."""
    kept = home / "key"
    if not kept.exists():
        kept.write_text(secrets.token_urlsafe(40))
    return kept.read_text()


def again_in(home, today: date | None, host: str, port: int) -> None:
    """Start over with a database and files of the demo's own; never returns."""
    home.mkdir(parents=True, exist_ok=True)
    os.environ.pop("GREENS_REDIS_URL", None)
    os.environ |= {
        "GREENS_DATA_DIR": str(home),
        "DATABASE_URL": f"sqlite:///{home / 'greens.sqlite3'}",
        "GREENS_MEDIA_ROOT": str(home / "media"),
        "GREENS_STATIC_ROOT": str(home / "static"),
        "GREENS_EMAIL_URL": f"filemail:///{home / 'mail'}",
        "GREENS_SITE_URL": f"http://{host}:{port}",
        "GREENS_HOSTS": f"localhost,127.0.0.1,{host}",
        "GREENS_SECRET_KEY": key_of(home),
    }
    if today:
        os.environ["GREENS_TODAY"] = today.isoformat()
    os.execv(sys.executable, [sys.executable, *sys.argv])
