"""What came from a phone that had kept it, and what became of it: each of its ids counts once."""

from datetime import timedelta

from django.db import models

LATE = timedelta(minutes=10)


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

    @property
    def came_late(self) -> bool:
        """Whether it lay on the phone for a while, by the phone's own clock put right."""
        ahead = timedelta(seconds=self.ahead_s or 0)
        return self.kept_at is not None and self.arrived_at - (self.kept_at - ahead) > LATE

    @property
    def clock_words(self) -> str:
        """ "Its clock was 60 minutes ahead." where that is worth a word."""
        if self.ahead_s is None:
            return ""
        way = "ahead" if self.ahead_s > 0 else "behind"
        return f"Its clock was {round(abs(self.ahead_s) / 60)} minutes {way}."
