"""The whole story, told backwards from a day: a club, its people, three rebuilt greens and an old one."""

from datetime import date, timedelta

from django.contrib.auth.hashers import make_password
from django.db import transaction

from greens.actions.club import found_club, set_normals
from greens.actions.people import add_by_name
from greens.models import Membership, Person, WeatherDay, Wish
from growin.agronomy.climate import Climate
from growin.management.demo import old, second_year, seeded, turfed
from growin.management.demo.almanac import Almanac
from growin.management.demo.place import BY_NAME, HEAD, PASSWORD, RAIN_MM, SIGNING_IN, Place, email
from growin.management.demo.shed import count_the_shed, fill_the_shed
from growin.management.demo.teller import Teller, dated, the_day
from growin.management.demo.weather import days_of

EARLIER_SEASONS = timedelta(days=4 * 365)  # of weather alone, so that a season has others beside it


@transaction.atomic
def tell(place: Place, today: date) -> dict[str, int]:
    """Found the club and live its seasons up to ``today``; greens' ids by the part they play."""
    almanac = Almanac(today, place.latitude_deg)
    climate = Climate(place.normals_c)
    beginning = almanac.local(almanac.last(10, 10, before=almanac.turf_laid, days=1)) - timedelta(days=420)
    with the_day(today):
        teller = found(place, almanac)
        WeatherDay.objects.bulk_create(days_of(teller.club, climate, beginning - EARLIER_SEASONS, today))
        materials = dated(teller, beginning, lambda: fill_the_shed(teller, beginning))
        told = {
            "in play": second_year.tell(teller, materials, climate),
            "turfed": turfed.tell(teller, materials, climate),
            "seeded": seeded.tell(teller, materials, climate),
        }
        old.tell(teller, told["in play"])
        second_year.analyse(teller, told["in play"])
        count_the_shed(teller, today)
        backdate(teller)
    return {part: rebuilt.green_id for part, rebuilt in told.items()}


def found(place: Place, almanac: Almanac) -> Teller:
    """The club with somebody of every role; all sign in with the same password, and none has quiet hours,
    so that mail lies in its folder whatever the time of day."""
    password = make_password(PASSWORD)
    people = {
        name: Person.objects.create(email=email(name), name=name, password=password) for name in SIGNING_IN
    }
    head = found_club(
        name=place.name, head=people[HEAD], latitude_deg=place.latitude_deg, time_zone=place.time_zone
    )
    members = {
        role: head if name == HEAD else Membership.objects.create(
            club=head.club, person=people[name], name=name, role=role
        )
        for name, role in SIGNING_IN.items()
    }  # fmt: skip
    Wish.objects.bulk_create(Wish(member=one, quiet_from=None, quiet_until=None) for one in members.values())
    members["by_name"] = add_by_name(club=head.club, by=head, name=BY_NAME)
    set_normals(club=head.club, by=head, means_c=list(place.normals_c), rain_mm=list(RAIN_MM))
    return Teller(head.club, almanac, {str(role): member for role, member in members.items()})


def backdate(teller: Teller) -> None:
    """Entries and readings of the story were logged on the evening of their day."""
    for rows in (teller.club.entries, teller.club.reading_sets):
        kept = list(rows.only("pk", "on"))
        for row in kept:
            row.logged_at = teller.moment(row.on)
        rows.model.objects.bulk_update(kept, ["logged_at"], batch_size=500)
