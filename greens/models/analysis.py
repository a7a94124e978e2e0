"""A laboratory's sheet on the soil of a green, or on the water."""

from django.db import models

from growin.agronomy.analysis_table import FIGURES, SOIL, WATER, Figure
from growin.agronomy.soil_test import EXTRACTANTS


class AnalysisKind(models.TextChoices):
    SOIL = SOIL, "Soil"
    WATER = WATER, "Water"


class Analysis(models.Model):
    """``values`` by the key of the figure; ``extractant`` and ``depth_mm`` are those of a soil sample."""

    green = models.ForeignKey("greens.Green", models.CASCADE, related_name="analyses")
    kind = models.CharField(max_length=6, choices=AnalysisKind.choices)
    on = models.DateField()
    laboratory = models.CharField(max_length=80, blank=True)
    extractant = models.CharField(max_length=20, choices=list(EXTRACTANTS.items()), blank=True)
    depth_mm = models.PositiveSmallIntegerField(null=True, blank=True)
    values = models.JSONField(default=dict)
    by = models.ForeignKey("greens.Membership", models.PROTECT, related_name="+")
    made_at = models.DateTimeField(auto_now_add=True)
    taken_back_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ["-on", "-pk"]
        verbose_name_plural = "analyses"

    def __str__(self):
        return f"{self.get_kind_display()} of {self.green}, {self.on}"

    @property
    def figures(self) -> list[tuple[Figure, float]]:
        """Each figure with its value, in the order of the sheet."""
        return [(one, self.values[key]) for key, one in FIGURES[self.kind].items() if key in self.values]
