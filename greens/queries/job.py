"""Long work of a club, and what of it was lost."""

from datetime import datetime

from django.db.models import QuerySet

from greens.choices import JobState
from greens.models import Club, Job


def one(club: Club, pk: int) -> Job:
    return club.jobs.get(pk=pk)


def open_one(club: Club, unique_key: str) -> Job:
    """The job under that key that has not come to its end."""
    return club.jobs.get(unique_key=unique_key, state__in=[JobState.QUEUED, JobState.RUNNING])


def silent(state: JobState, since: datetime) -> QuerySet[Job]:
    """Jobs of every club that gave no sign of life since a moment; for the sweep alone."""
    return Job.objects.filter(state=state, heard_at__lt=since)


def over_since(moment: datetime) -> QuerySet[Job]:
    """Jobs of every club that ended before a moment; for the sweep alone."""
    return Job.objects.filter(finished_at__lt=moment)


def waiting() -> QuerySet[Job]:
    """Every job that nobody has taken up, the oldest first; for one who does them without a worker."""
    return Job.objects.filter(state=JobState.QUEUED).order_by("pk")
