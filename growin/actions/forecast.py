"""Forecasts: worked out between laying and opening, on new evidence or once a night, and kept."""

from datetime import date

from django.db import transaction

from greens.actions import job as jobs
from greens.models import Club, Establishment, Job
from growin.actions import lookout
from growin.agronomy.forecast import Forecast
from growin.agronomy.impossible import ImpossibleValue
from growin.evidence.forecast import Known, known_on, worked_out
from growin.models import KeptForecast
from growin.queries import facts
from growin.queries import forecast as queries

FORECAST = "work out a forecast"
MOST_AT_ONCE = 200
LONGEST_REFUSAL = KeptForecast._meta.get_field("refused").max_length


def queue_due() -> int:
    """Queue every forecast that is due, for the worker; how many there were."""
    due = list(queries.wanting(MOST_AT_ONCE))
    for one in due:
        key = f"forecast {one.pk}"
        jobs.queue_job(club=one.green.club, kind=FORECAST, args={"rebuild": one.pk}, unique_key=key)
    return len(due)


def make(job: Job) -> dict:
    """The forecast that a job asks for.

    Raises
    ------
    NotDone
        When the rebuild is gone.
    """
    rebuilds = Establishment.objects.select_related("green__club")
    row = rebuilds.filter(green__club=job.club, pk=job.args.get("rebuild")).first()
    if row is None:
        raise jobs.NotDone("The rebuild that this forecast was for is gone.")
    before = queries.kept(row)
    kept = refreshed(row, job.club.local_today())
    if queries.days_between(before, kept) != 0:
        lookout.ask_for_a_look(job.club)
    return {"as_of": kept.as_of.isoformat()}


def refreshed(establishment: Establishment, on: date) -> KeptForecast:
    """The forecast of a day, worked out anew only where the record has changed since."""
    row = queries.kept(establishment)
    club = Club.objects.get(pk=establishment.green.club_id)
    fresh = row and row.as_of == on and not queries.is_stale(row, club)
    return row if fresh else keep(establishment, on)


def keep(establishment: Establishment, on: date) -> KeptForecast:
    """Work out the forecast of a day and keep it, or the sentence why there is none.

    The mark is read before the record, so that what comes in meanwhile makes it stale.
    """
    mark = Club.objects.values_list("trail_mark", flat=True).get(pk=establishment.green.club_id)
    missing = facts.missing(establishment)
    if missing:
        return _store(establishment, on, {"mark": mark} | _refused(" ".join(missing)))
    try:
        known = known_on(establishment, on)
        same = establishment.forecasts.filter(as_of=on, knew__whole=known.in_short["whole"])
        if same.update(mark=mark):
            return same.get()
        return _store(establishment, on, {"mark": mark} | _told(worked_out(known), known))
    except ImpossibleValue as refusal:
        return _store(establishment, on, {"mark": mark} | _refused(str(refusal)))


def _refused(sentence: str) -> dict:
    nothing = {"p10": None, "p50": None, "p90": None, "within_season": 0, "told": {}, "knew": {}}
    return nothing | {"refused": sentence[:LONGEST_REFUSAL]}


def _told(told: Forecast, known: Known) -> dict:
    dates = {"p10": told.p10, "p50": told.p50, "p90": told.p90, "within_season": told.within_season}
    return dates | {"told": queries.as_plain(told), "knew": known.in_short, "refused": ""}


@transaction.atomic
def _store(establishment: Establishment, on: date, values: dict) -> KeptForecast:
    """One row a day; of older ones only their dates stay."""
    row, _ = KeptForecast.objects.update_or_create(establishment=establishment, as_of=on, defaults=values)
    establishment.forecasts.filter(as_of__lt=on).exclude(told={}).update(told={})
    return row
