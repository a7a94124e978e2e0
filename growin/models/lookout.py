"""When somebody looks at a club next for what its people must be told, and what was told before."""

from django.db import models


class Lookout(models.Model):
    """One of a club. ``look_at`` is the next look by the clock; a mark other than the club's asks for one
    at once. ``known`` is what the last look found on each rebuild ({id: {kind: …}}), so that only what is
    new is told. ``trouble`` says why the last look failed.
    """

    club = models.OneToOneField("greens.Club", models.CASCADE, related_name="lookout")
    look_at = models.DateTimeField(db_index=True)
    looked_at = models.DateTimeField(null=True, blank=True)
    mark = models.BigIntegerField(default=0)
    claimed_at = models.DateTimeField(null=True, blank=True)
    known = models.JSONField(default=dict)
    trouble = models.CharField(max_length=300, blank=True)

    def __str__(self):
        return f"lookout of {self.club}"
