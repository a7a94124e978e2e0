"""Dated advice of the adviser on one green; it stands beside verdict and decision."""

from django.db import models


class Advice(models.Model):
    """``agrees_to_shorter_gate``: no longer (False), agrees (True), or says nothing of it (None)."""

    green = models.ForeignKey("greens.Green", models.CASCADE, related_name="advice")
    on = models.DateField()
    words = models.TextField(max_length=4000)
    agrees_to_shorter_gate = models.BooleanField(null=True, blank=True)
    by = models.ForeignKey("greens.Membership", models.PROTECT, related_name="+")
    made_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["-on", "-pk"]
        verbose_name_plural = "advice"

    def __str__(self):
        return self.words[:60]
