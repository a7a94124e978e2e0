"""Gravel, blinding grit, rootzone, sand and turf soil, with what the laboratory found."""

from django.db import models

from greens.choices import MaterialKind

PERCENT = {"max_digits": 5, "decimal_places": 2, "null": True, "blank": True}


class Material(models.Model):
    """``grading`` holds pairs of sieve size in mm and per cent by weight passing, coarse to fine."""

    club = models.ForeignKey("greens.Club", models.CASCADE, related_name="materials")
    kind = models.CharField(max_length=10, choices=MaterialKind.choices)
    name = models.CharField(max_length=80)
    laboratory = models.CharField(max_length=80, blank=True)
    tested_on = models.DateField(null=True, blank=True)
    grading = models.JSONField(default=list, blank=True)
    total_porosity_percent = models.DecimalField(**PERCENT)
    air_filled_percent = models.DecimalField(**PERCENT)
    capillary_percent = models.DecimalField(**PERCENT)
    organic_matter_percent = models.DecimalField(**PERCENT)
    carbonate_percent = models.DecimalField(**PERCENT)
    ksat_mm_h = models.DecimalField(max_digits=6, decimal_places=1, null=True, blank=True)
    bulk_density_t_m3 = models.DecimalField(max_digits=4, decimal_places=2, null=True, blank=True)

    class Meta:
        ordering = ["kind", "name"]
        constraints = [
            models.UniqueConstraint(fields=["club", "kind", "name"], name="a_material_stands_once_in_a_club")
        ]

    def __str__(self):
        return self.name
