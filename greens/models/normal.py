"""Monthly normals of a club: what a usual year is like."""

import calendar

from django.db import models


class Normal(models.Model):
    club = models.ForeignKey("greens.Club", models.CASCADE, related_name="normals")
    month = models.PositiveSmallIntegerField()
    mean_c = models.DecimalField(max_digits=4, decimal_places=1)
    rain_mm = models.DecimalField(max_digits=5, decimal_places=1, null=True, blank=True)

    class Meta:
        ordering = ["month"]
        constraints = [
            models.UniqueConstraint(fields=["club", "month"], name="one_normal_per_club_and_month")
        ]

    def __str__(self):
        return f"month {self.month}: {self.mean_c} °C"

    @property
    def month_name(self) -> str:
        return calendar.month_name[self.month]
