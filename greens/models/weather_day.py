"""The weather of one local day at a club."""

from django.db import models

BY_HAND = "by hand"
CELSIUS = {"max_digits": 4, "decimal_places": 1, "null": True, "blank": True}


class WeatherDay(models.Model):
    """An estimated day never passes as a measured one."""

    club = models.ForeignKey("greens.Club", models.CASCADE, related_name="weather_days")
    on = models.DateField()
    min_c = models.DecimalField("lowest, °C", **CELSIUS)
    max_c = models.DecimalField("highest, °C", **CELSIUS)
    mean_c = models.DecimalField("mean, °C", **CELSIUS)
    rain_mm = models.DecimalField("rain, mm", max_digits=5, decimal_places=1, null=True, blank=True)
    soil_100_c = models.DecimalField("soil at 100 mm, 9 am, °C", **CELSIUS)
    humidity_percent = models.PositiveSmallIntegerField("humidity, %", null=True, blank=True)
    wind_m_s = models.DecimalField("wind, m/s", max_digits=4, decimal_places=1, null=True, blank=True)
    sunshine_h = models.DecimalField("sunshine, h", max_digits=3, decimal_places=1, null=True, blank=True)
    source = models.CharField(max_length=60, default=BY_HAND)
    is_estimated = models.BooleanField(default=False)
    upload = models.ForeignKey(
        "greens.WeatherUpload", models.SET_NULL, null=True, blank=True, related_name="days"
    )

    class Meta:
        ordering = ["-on"]
        constraints = [
            models.UniqueConstraint(fields=["club", "on"], name="one_weather_row_per_club_and_day")
        ]

    def __str__(self):
        return f"weather of {self.on}"

    @property
    def is_by_hand(self) -> bool:
        return self.source.startswith(BY_HAND)
