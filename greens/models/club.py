"""A golf club: its place on the globe sets day length and season, its zone the local day."""

import secrets
from datetime import date
from zoneinfo import ZoneInfo

from django.conf import settings
from django.db import models
from django.utils import timezone

from greens.choices import Units
from growin.agronomy.closed_time import span_in_words


def new_mark() -> int:
    """Drawn, not counted on, so that two changes at once cannot end on the same one."""
    return secrets.randbits(62)


class Club(models.Model):
    slug = models.SlugField(unique=True, max_length=60)
    name = models.CharField(max_length=80)
    latitude_deg = models.DecimalField(max_digits=6, decimal_places=3)
    altitude_m = models.IntegerField(default=0)
    time_zone = models.CharField(max_length=60, default="Europe/London")
    units = models.CharField(max_length=10, choices=Units.choices, default=Units.METRIC)
    day_spread_c = models.DecimalField(
        "day-to-day spread of the mean temperature, °C", max_digits=3, decimal_places=1, default=3
    )
    feeding_rules = models.TextField("rules for feeding here", blank=True)
    year_limit_n_kg_ha = models.DecimalField(max_digits=5, decimal_places=1, null=True, blank=True)
    year_limit_p_kg_ha = models.DecimalField(max_digits=5, decimal_places=1, null=True, blank=True)
    #: A time of the year without feeding, as "10-15"; empty: none.
    closed_from = models.CharField(max_length=5, blank=True)
    closed_until = models.CharField(max_length=5, blank=True)
    #: The last day of a club that is being closed, and when its people were last told; empty: none.
    closes_on = models.DateField(null=True, blank=True)
    closing_told_on = models.DateField(null=True, blank=True)
    created_at = models.DateTimeField(auto_now_add=True)
    #: Another number after every line in the club's record of changes.
    trail_mark = models.BigIntegerField(default=new_mark, editable=False)
    #: Another number after every such line but those of a day's logging (:data:`greens.actions.trail.DAILY`).
    frame_mark = models.BigIntegerField(default=new_mark, editable=False)

    def __str__(self):
        return self.name

    @property
    def zone(self) -> ZoneInfo:
        return ZoneInfo(self.time_zone)

    @property
    def closed_words(self) -> str:
        """ "15 October to 31 January", the time without feeding; empty where there is none."""
        return span_in_words(self.closed_from, self.closed_until)

    def local_today(self) -> date:
        """Today where the club is (or the fixed day of a demonstration)."""
        return settings.FIXED_TODAY or timezone.now().astimezone(self.zone).date()
