"""A day that the committee has in mind for opening; while it is open, the criteria stand frozen."""

from datetime import date

from django.db import models
from django.db.models import Q

from growin.agronomy.plain_words import dated
from growin.models.decision import Pattern


class Proposal(models.Model):
    """``verdict`` and ``chance`` as they stood on the club's day ``made_on``.

    It ends withdrawn, with a ``decision``, or by itself once its day has passed.
    """

    establishment = models.ForeignKey("greens.Establishment", models.CASCADE, related_name="proposals")
    opening_on = models.DateField()
    pattern = models.CharField(max_length=10, choices=Pattern.choices)
    made_on = models.DateField()
    made_at = models.DateTimeField(auto_now_add=True)
    by = models.ForeignKey("greens.Membership", models.PROTECT, related_name="+")
    verdict = models.CharField(max_length=10)
    chance = models.FloatField(null=True, blank=True)
    ended_on = models.DateField(null=True, blank=True)
    ended_by = models.ForeignKey("greens.Membership", models.PROTECT, null=True, blank=True, related_name="+")
    ended_why = models.CharField(max_length=300, blank=True)
    decision = models.OneToOneField(
        "growin.Decision", models.PROTECT, null=True, blank=True, related_name="proposal"
    )

    class Meta:
        ordering = ["-pk"]
        constraints = [
            models.UniqueConstraint(
                fields=["establishment"], condition=Q(ended_on=None), name="one_open_proposal_per_rebuild"
            )
        ]

    def __str__(self):
        return f"{self.get_pattern_display()} proposed from {dated(self.opening_on)}"

    def is_open(self, on: date) -> bool:
        """Whether it stood undecided on a day."""
        has_ended = self.ended_on is not None and self.ended_on <= on
        return self.made_on <= on <= self.opening_on and not has_ended
