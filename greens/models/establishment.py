"""One rebuild of a green: its works, its turf or seed, and everything that hangs on them."""

from django.db import models

from growin.agronomy.species import ESTABLISHMENTS, SPECIES


class Establishment(models.Model):
    """``established_on`` is the day of laying or sowing, empty while it is still being built."""

    green = models.ForeignKey("greens.Green", models.CASCADE, related_name="establishments")
    number = models.PositiveSmallIntegerField()
    kind = models.CharField(max_length=16, choices=[(key, one.words) for key, one in ESTABLISHMENTS.items()])
    species = models.CharField(max_length=32, choices=[(key, one.words) for key, one in SPECIES.items()])
    works_started_on = models.DateField()
    established_on = models.DateField(null=True, blank=True)
    summer_height_mm = models.DecimalField(max_digits=4, decimal_places=2, null=True, blank=True)
    others_height_mm = models.DecimalField(max_digits=4, decimal_places=2, null=True, blank=True)
    maintenance_ends_on = models.DateField(null=True, blank=True)
    seed_rate_g_m2 = models.DecimalField(max_digits=5, decimal_places=2, null=True, blank=True)

    class Meta:
        ordering = ["green", "-number"]
        constraints = [
            models.UniqueConstraint(fields=["green", "number"], name="establishments_count_up_per_green")
        ]

    def __str__(self):
        return f"{self.green}, rebuild of {self.works_started_on.year}"

    @property
    def is_turf(self) -> bool:
        return ESTABLISHMENTS[self.kind].is_turf
