"""The layers of a build, each with the depths that were levelled in it."""

from django.db import models

from greens.choices import LayerKind


class Layer(models.Model):
    """``depths_mm`` are single level readings of the layer's thickness, never only a mean."""

    establishment = models.ForeignKey("greens.Establishment", models.CASCADE, related_name="layers")
    kind = models.CharField(max_length=12, choices=LayerKind.choices)
    material = models.ForeignKey("greens.Material", models.PROTECT, null=True, blank=True, related_name="+")
    depths_mm = models.JSONField(default=list)
    levelled_on = models.DateField(null=True, blank=True)
    placing = models.CharField("how it was placed and firmed", max_length=200, blank=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["establishment", "kind"], name="each_layer_once_in_a_build")
        ]

    def __str__(self):
        return self.get_kind_display()
