"""When somebody last swept: the sign that long work and mail are looked after."""

from django.db import models


class Heartbeat(models.Model):
    """One row for each ``name``; today there is one, ``sweep``, written by a worker or by cron."""

    name = models.CharField(max_length=20, unique=True)
    at = models.DateTimeField()

    def __str__(self):
        return f"{self.name} at {self.at:%Y-%m-%d %H:%M:%S}"
