"""A worker, or cron in its place, says that it lives."""

from django.utils import timezone

from greens.models import Heartbeat

SWEEP = "sweep"


def beat(name: str = SWEEP) -> None:
    """Keep the moment, in one statement, whoever else does the same."""
    row = Heartbeat(name=name, at=timezone.now())
    Heartbeat.objects.bulk_create([row], update_conflicts=True, unique_fields=["name"], update_fields=["at"])
