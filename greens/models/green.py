"""A putting green: the place. What was built there, and when, is its establishment."""

from django.db import models


class Green(models.Model):
    """``latitude_deg`` and ``longitude_deg`` are of the point its area was measured from,
    ``bearing_deg`` the direction in which its outline points up, from north by east."""

    club = models.ForeignKey("greens.Club", models.CASCADE, related_name="greens")
    name = models.CharField(max_length=60)
    position = models.PositiveSmallIntegerField("number on the card", default=0)
    area_dm2 = models.PositiveIntegerField(null=True, blank=True)
    distance_to_water_m = models.DecimalField(max_digits=6, decimal_places=1, null=True, blank=True)
    latitude_deg = models.DecimalField(max_digits=9, decimal_places=6, null=True, blank=True)
    longitude_deg = models.DecimalField(max_digits=9, decimal_places=6, null=True, blank=True)
    bearing_deg = models.PositiveSmallIntegerField(null=True, blank=True)
    created_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["position", "name"]
        constraints = [
            models.UniqueConstraint(fields=["club", "name"], name="a_green_has_its_name_once_in_a_club")
        ]

    def __str__(self):
        return self.name

    @property
    def area_m2(self) -> float | None:
        return None if self.area_dm2 is None else self.area_dm2 / 100
