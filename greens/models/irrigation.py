"""The watering system as it was ready, or not, when the grass arrived."""

from django.db import models


class Irrigation(models.Model):
    establishment = models.OneToOneField("greens.Establishment", models.CASCADE, related_name="irrigation")
    live_on = models.DateField("live since", null=True, blank=True)
    audited_on = models.DateField("heads audited on", null=True, blank=True)
    heads = models.PositiveSmallIntegerField("number of heads", null=True, blank=True)
    hose_ready_on = models.DateField("hose at the green since", null=True, blank=True)

    def __str__(self):
        return f"irrigation of {self.establishment}"
