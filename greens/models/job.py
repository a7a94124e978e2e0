"""A piece of long work: a row before it is begun, so that nothing is lost with the one who does it."""

from datetime import timedelta

from django.db import models
from django.db.models import Q
from django.utils import timezone

from greens.choices import JobState

A_LONG_WAIT = timedelta(minutes=2)


class Job(models.Model):
    """``kind`` is the name of the task that does it; ``tries`` counts how often it was taken up.

    ``heard_at`` is its last sign of life: when it was queued, taken up, or last said how far it is.
    """

    club = models.ForeignKey("greens.Club", models.CASCADE, related_name="jobs")
    kind = models.CharField(max_length=60)
    state = models.CharField(max_length=10, choices=JobState.choices, default=JobState.QUEUED)
    args = models.JSONField(default=dict)
    result = models.JSONField(default=dict)
    error = models.CharField(max_length=500, blank=True)
    done_count = models.PositiveIntegerField(default=0)
    of_count = models.PositiveIntegerField(default=0)
    tries = models.PositiveSmallIntegerField(default=0)
    unique_key = models.CharField(max_length=120, blank=True)
    by = models.ForeignKey("greens.Membership", models.PROTECT, null=True, blank=True, related_name="+")
    made_at = models.DateTimeField(auto_now_add=True)
    heard_at = models.DateTimeField()
    started_at = models.DateTimeField(null=True, blank=True)
    finished_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ["-made_at", "-pk"]
        indexes = [models.Index(fields=["state", "heard_at"])]
        constraints = [
            models.UniqueConstraint(
                fields=["club", "unique_key"],
                condition=Q(state__in=[JobState.QUEUED, JobState.RUNNING]) & ~Q(unique_key=""),
                name="one_open_job_of_a_key",
            )
        ]

    def __str__(self):
        return f"{self.kind} ({self.get_state_display().lower()})"

    @property
    def is_open(self) -> bool:
        """Whether it is still to come to an end."""
        return self.state in (JobState.QUEUED, JobState.RUNNING)

    @property
    def done_percent(self) -> int | None:
        """How far it is, where it is known how much there is."""
        return round(100 * self.done_count / self.of_count) if self.of_count else None

    @property
    def waits_long(self) -> bool:
        """Whether a worker should have taken it up long ago."""
        return self.state == JobState.QUEUED and timezone.now() - self.heard_at > A_LONG_WAIT
