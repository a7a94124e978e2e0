"""What a phone needs with it where there is no signal: which pages, and by what they grow old."""

from hashlib import sha256
from json import dumps

from django.urls import reverse

from greens.models import Club, Membership
from greens.queries import greens, people, store
from growin.agronomy.measures import MEASURES
from growin.agronomy.works import WORKS


def pages(club: Club) -> list[str]:
    """Addresses of the pages that work without signal: the day, every form of work, every set of readings."""
    alone = [reverse(name, args=[club.slug]) for name in ("today", "log", "pocket", "choose_any_measure")]
    works = [reverse("log_work", args=[club.slug, kind]) for kind in WORKS]
    return [*alone, *works, *(reverse("take_on_a_green", args=[club.slug, key]) for key in MEASURES)]


def digest(club: Club, member: Membership, app: str) -> str:
    """Changes with the app, the day, and what the forms offer: greens, people, products; three queries."""
    offered = [
        *greens.of(club).values_list("pk", "name", "position", "area_dm2"),
        *people.workers(club).values_list("pk", "name"),
        *store.labels_in_use(club).values_list("pk", "product__name"),
    ]
    said = [app, str(club.local_today()), club.units, member.role, *map(str, offered)]
    return sha256(dumps(said).encode()).hexdigest()[:16]
