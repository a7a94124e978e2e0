"""A club's (or one green's) own value for a constant of the trade, in force from a day on."""

from django.db import models


class Setting(models.Model):
    club = models.ForeignKey("greens.Club", models.CASCADE, related_name="settings")
    green = models.ForeignKey("greens.Green", models.CASCADE, null=True, blank=True, related_name="settings")
    key = models.CharField(max_length=80)
    value = models.FloatField()
    in_force_from = models.DateField()
    by = models.ForeignKey("greens.Membership", models.PROTECT, related_name="+")
    why = models.CharField(max_length=500)
    made_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["in_force_from", "pk"]
        indexes = [models.Index(fields=["club", "key", "in_force_from"])]

    def __str__(self):
        return f"{self.key} = {self.value:g} from {self.in_force_from}"
