"""Turf is a material too: who grew it, on what soil, how old, how thick, how thatchy."""

from django.db import models


class Turf(models.Model):
    """``species_percent`` are pairs of species and share as the grower or a count gives them."""

    establishment = models.OneToOneField("greens.Establishment", models.CASCADE, related_name="turf")
    source = models.CharField("grower, or where it was lifted", max_length=80, blank=True)
    age_months = models.PositiveSmallIntegerField(null=True, blank=True)
    species_percent = models.JSONField(default=list, blank=True)
    cut_thickness_mm = models.DecimalField(max_digits=4, decimal_places=1, null=True, blank=True)
    thatch_mm = models.DecimalField(max_digits=4, decimal_places=1, null=True, blank=True)
    lifted_on = models.DateField(null=True, blank=True)
    soil = models.ForeignKey("greens.Material", models.PROTECT, null=True, blank=True, related_name="+")

    def __str__(self):
        return f"turf of {self.establishment}"
