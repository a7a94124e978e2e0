"""The secret address under which a member's calendar reads the programme; only its hash is kept."""

from django.db import models


class Feed(models.Model):
    """One of a member, so one of a person and club. Without a row there is no such address.

    ``read_at`` is the last time that a calendar fetched it, to the hour.
    """

    member = models.OneToOneField("greens.Membership", models.CASCADE, related_name="feed")
    secret_hash = models.CharField(max_length=64, unique=True)
    made_at = models.DateTimeField()
    read_at = models.DateTimeField(null=True, blank=True)

    def __str__(self):
        return f"calendar address of {self.member}"
