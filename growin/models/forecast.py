"""The forecast of a rebuild as it was worked out on a day."""

from django.db import models


class KeptForecast(models.Model):
    """``mark`` is the club's mark under which its record was read: another mark now means that it is stale.

    ``knew`` says what it rested on. ``told`` holds the whole of it, and is empty once a newer one stands
    and for a forecast that was ``refused``, with the sentence why.
    """

    establishment = models.ForeignKey("greens.Establishment", models.CASCADE, related_name="forecasts")
    as_of = models.DateField()
    made_at = models.DateTimeField(auto_now=True)
    mark = models.BigIntegerField()
    p10 = models.DateField(null=True, blank=True)
    p50 = models.DateField(null=True, blank=True)
    p90 = models.DateField(null=True, blank=True)
    within_season = models.FloatField(default=0)
    knew = models.JSONField(default=dict)
    told = models.JSONField(default=dict, blank=True)
    refused = models.CharField(max_length=300, blank=True)

    class Meta:
        ordering = ["-as_of"]
        constraints = [
            models.UniqueConstraint(fields=["establishment", "as_of"], name="one_forecast_of_a_rebuild_a_day")
        ]

    def __str__(self):
        return f"forecast of {self.as_of}"
