"""A club whose people wait for news: thirty notices in no mail yet, and five days of weather in the queue.

Told in a process of its own, on the site's own database:
``site.do("-c", TELL)``.
"""

from datetime import date, timedelta

from celery import current_app
from celery.beat import PersistentScheduler
from django.core.management import call_command

from greens.actions.notice import Telling, tell
from greens.actions.weather_upload import queue_import, take_in
from greens.actions.wish import change_wishes
from greens.choices import NoticeKind, Role
from greens.models import Membership
from tests.cast import PASSWORD, Cast, joined, whole_cast
from tests.weather_files import csv_file, season

STAFF, WORDS = 10, 3
NOTICES = STAFF * WORDS
MEMBERS = STAFF + 4
AT_ANY_HOUR = {"daily_at": "06:30", "weekly_on": 0, "quiet_from": None, "quiet_until": None}


def tell_everybody() -> None:
    """Everybody is mailed at any hour, so that no test depends on the clock."""
    call_command("migrate", verbosity=0)
    cast = whole_cast()
    staff = [joined(cast.club, f"Hand {number}", Role.STAFF) for number in range(STAFF)]
    for one in [*staff, cast.head, cast.staff, cast.committee, cast.adviser]:
        change_wishes(member=one, paces={}, left_out=[], **AT_ANY_HOUR)
    for number in range(WORDS):
        word = f"Word {number} of the committee."
        tell(club=cast.club, to=staff, telling=Telling(NoticeKind.AGAINST, f"word {number}", word, word))
    let_sign_in(cast.committee)
    queue_weather(cast)
    let_the_clock_be_late()


def let_sign_in(member: Membership) -> None:
    member.person.set_password(PASSWORD)
    member.person.save()


def queue_weather(cast: Cast) -> None:
    upload = take_in(club=cast.club, by=cast.head, file=csv_file(*season(date(2026, 4, 1), 5)))
    queue_import(upload=upload, by=cast.head, source="station")


def let_the_clock_be_late() -> None:
    """The worker's clock was last seen an hour ago, so that it nudges for mail as soon as it begins."""
    file = current_app.conf.beat_schedule_filename
    clock = PersistentScheduler(app=current_app, schedule_filename=file, lazy=True)
    clock.setup_schedule()
    clock.schedule["send mails"].last_run_at -= timedelta(hours=1)
    clock.close()
