"""One line of a seed mix, as on its certificate."""

from django.db import models

PERCENT = {"max_digits": 5, "decimal_places": 2}


class SeedLine(models.Model):
    establishment = models.ForeignKey("greens.Establishment", models.CASCADE, related_name="seed_lines")
    variety = models.CharField("species and cultivar", max_length=80)
    share_percent = models.DecimalField(**PERCENT)
    purity_percent = models.DecimalField(**PERCENT, null=True, blank=True)
    germination_percent = models.DecimalField(**PERCENT, null=True, blank=True)

    class Meta:
        ordering = ["-share_percent", "variety"]

    def __str__(self):
        return f"{self.share_percent:g} % {self.variety}"
