"""Pipe drains under the gravel, mains and laterals."""

from django.db import models

from greens.choices import DrainKind

MILLIMETRES = {"null": True, "blank": True}


class Drain(models.Model):
    establishment = models.ForeignKey("greens.Establishment", models.CASCADE, related_name="drains")
    kind = models.CharField(max_length=8, choices=DrainKind.choices)
    spacing_m = models.DecimalField(max_digits=5, decimal_places=2, null=True, blank=True)
    trench_width_mm = models.PositiveSmallIntegerField(**MILLIMETRES)
    trench_depth_mm = models.PositiveSmallIntegerField(**MILLIMETRES)
    bedding_mm = models.PositiveSmallIntegerField("gravel under the pipe, mm", **MILLIMETRES)
    fall_percent = models.DecimalField(
        "least continuous fall, %", max_digits=5, decimal_places=2, null=True, blank=True
    )
    pipe_mm = models.PositiveSmallIntegerField("pipe, mm", **MILLIMETRES)
    is_perforated = models.BooleanField("perforated", null=True, blank=True)
    reaches_edge = models.BooleanField("carried to the edge", null=True, blank=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(
                fields=["establishment", "kind"], name="mains_and_laterals_once_in_a_build"
            )
        ]

    def __str__(self):
        return self.get_kind_display()
