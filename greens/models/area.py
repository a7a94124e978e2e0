"""How the area of a green, or of a part of it, was found; the newest of the whole counts."""

from django.db import models

from greens.choices import AreaMethod


class Area(models.Model):
    """``values_m`` are radii or offsets in metres; empty when the area was typed in."""

    green = models.ForeignKey("greens.Green", models.CASCADE, related_name="areas")
    part = models.CharField(max_length=40, blank=True)
    method = models.CharField(max_length=8, choices=AreaMethod.choices)
    values_m = models.JSONField(default=list, blank=True)
    spacing_m = models.DecimalField(max_digits=6, decimal_places=2, null=True, blank=True)
    area_dm2 = models.PositiveIntegerField()
    measured_on = models.DateField()
    by = models.ForeignKey("greens.Membership", models.PROTECT, related_name="+")

    class Meta:
        ordering = ["-measured_on", "-pk"]

    def __str__(self):
        return f"{self.part or 'Whole green'}: {self.area_dm2 / 100:g} m²"
