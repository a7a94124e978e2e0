"""The record of changes: who changed what, when, from what and to what."""

from django.db import models


class TrailLine(models.Model):
    club = models.ForeignKey("greens.Club", models.CASCADE, related_name="trail")
    at = models.DateTimeField(auto_now_add=True)
    by = models.ForeignKey("greens.Membership", models.PROTECT, null=True, related_name="+")
    deed = models.CharField(max_length=120)
    noun = models.CharField(max_length=40)
    noun_pk = models.BigIntegerField(null=True)
    green = models.ForeignKey("greens.Green", models.SET_NULL, null=True, related_name="+")
    changes = models.JSONField(default=dict)

    class Meta:
        ordering = ["-at", "-pk"]
        indexes = [models.Index(fields=["club", "-at"]), models.Index(fields=["noun", "noun_pk"])]

    def __str__(self):
        return self.deed
