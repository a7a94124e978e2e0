"""Where somebody is signed in: one row for each browser, for as long as its session lasts."""

from django.db import models


class Device(models.Model):
    """``words`` say coarsely what it is, as its browser told; ``used_at`` is kept to the hour."""

    person = models.ForeignKey("greens.Person", models.CASCADE, related_name="devices")
    session_key = models.CharField(max_length=40, unique=True)
    words = models.CharField(max_length=60)
    signed_in_at = models.DateTimeField(auto_now_add=True)
    used_at = models.DateTimeField()

    class Meta:
        ordering = ["-used_at", "-pk"]

    def __str__(self):
        return self.words
