"""What came from a phone that had kept it, and what became of it: each of its ids counts once."""

from django.db import models


class Arrival(models.Model):
    """A form that a phone kept until there was signal.

    ``content`` is a digest of the address and what was written; the same content under the same id gets
    the same answer. ``kept_at`` is when it was written by the phone's own clock, which stood ``ahead_s``
    seconds ahead of ours when it came; both are noted and decide nothing.
    """

    club = models.ForeignKey("greens.Club", models.CASCADE, related_name="arrivals")
    client_id = models.UUIDField()
    by = models.ForeignKey("greens.Membership", models.PROTECT, related_name="+")
    content = models.CharField(max_length=64)
    page = models.CharField(max_length=300, blank=True)
    kept_at = models.DateTimeField(null=True, blank=True)
    ahead_s = models.IntegerField(null=True, blank=True)
    arrived_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["club", "client_id"], name="a_form_from_a_phone_counts_once")
        ]

    def __str__(self):
        return f"{self.client_id} at {self.arrived_at:%Y-%m-%d %H:%M}"
