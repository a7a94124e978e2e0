"""Clubs for a site that is measured from outside: ``python -m tests.bench.furnish CLUBS USERS DAYS``.

Run with the environment of that site. Prints, as JSON, for each club: who is signed in (the cookie of each),
the pages of a day with the bare page of the weight of each, every address, and where work is logged.
"""

import json
import sys

import django

django.setup()

from django.conf import settings as site  # noqa: E402
from django.test import Client, override_settings  # noqa: E402
from django.urls import reverse  # noqa: E402

from greens.choices import Role  # noqa: E402
from greens.models import Label, Membership  # noqa: E402
from growin.actions.programme import issue_programme  # noqa: E402
from tests.bench.history import lengthen  # noqa: E402
from tests.bench.measured import inside, pages  # noqa: E402
from tests.cast import club_with_head, joined, laid_green  # noqa: E402
from tests.rows import rows_of  # noqa: E402

#: What is asked for in a day, the more often the more often it stands here (our judgement).
DAY = (
    *("today",) * 6, "log", "log", "log_work", "log_work", "green", "green", "diary", "diary", "readiness",
    "readings", "take_reading", "programme", "store", "greens", "entry", "weather", "budget", "notices",
    "forecast",
)  # fmt: skip


def club(number: int, users: int, days: int) -> dict:
    """A club with a rebuilt green, ``days`` of record, a head greenkeeper and greenstaff."""
    head, today = club_with_head(f"Club {number}", f"Head of {number}"), site.FIXED_TODAY
    rebuild = laid_green(head.club)
    rows = rows_of(head, rebuild)
    issue_programme(establishment=rebuild, by=head, on=today)
    lengthen(head, rebuild, Label.objects.get(pk=rows["label_id"]), today, days)
    staff = [joined(head.club, f"Staff {one} of {number}", Role.STAFF) for one in range(1, users)]
    shown = {page.name: [page.path, page.bare_path] for page in pages(client_of(head), rows, DAY)}
    return {
        "cookies": [cookie_of(one) for one in (head, *staff)],
        "day": [shown[name] for name in DAY if name in shown],
        "addresses": [path for _, path in inside(rows)],
        "log": reverse("log_work", args=[head.club.slug, "cut"]),
        "cut": {"greens": rebuild.green_id, "height_mm": 8, "on": today.isoformat(), "done_by": head.pk},
    }


def client_of(member: Membership) -> Client:
    client = Client(raise_request_exception=False)
    client.force_login(member.person)
    return client


def cookie_of(member: Membership) -> str:
    return client_of(member).cookies["sessionid"].value


if __name__ == "__main__":
    clubs, users, days = map(int, sys.argv[1:])
    with override_settings(ROOT_URLCONF="tests.bench.bare", ALLOWED_HOSTS=["*"]):
        made = [club(number, users, days) for number in range(1, clubs + 1)]
    sys.stdout.write(json.dumps(made))
