"""Programmes: a chain of numbered versions, each kept as it was issued."""

from django.db import models


class Programme(models.Model):
    """One version. It is never changed; the next one replaces it."""

    establishment = models.ForeignKey("greens.Establishment", models.CASCADE, related_name="programmes")
    number = models.PositiveSmallIntegerField()
    issued_at = models.DateTimeField(auto_now_add=True)
    issued_on = models.DateField()
    by = models.ForeignKey("greens.Membership", models.PROTECT, related_name="+")
    why = models.CharField(max_length=300, blank=True)
    inputs = models.JSONField(default=dict)
    settings = models.JSONField(default=dict)

    class Meta:
        ordering = ["establishment", "-number"]
        constraints = [
            models.UniqueConstraint(fields=["establishment", "number"], name="programme_versions_count_up")
        ]

    def __str__(self):
        return f"programme {self.number} of {self.establishment}"


class ProgrammeStep(models.Model):
    """A dated step. ``key`` is the same through all versions, so that answers stay with it."""

    programme = models.ForeignKey("growin.Programme", models.CASCADE, related_name="steps")
    key = models.CharField(max_length=60)
    kind = models.CharField(max_length=20)
    earliest = models.DateField()
    likely = models.DateField()
    latest = models.DateField()
    amount = models.FloatField(null=True, blank=True)
    unit = models.CharField(max_length=20, blank=True)
    what = models.CharField(max_length=200)
    how = models.CharField(max_length=600, blank=True)
    why = models.CharField(max_length=600, blank=True)
    source = models.CharField(max_length=300, blank=True)
    mark = models.CharField(max_length=20)
    gate = models.CharField(max_length=200, blank=True)
    measure = models.CharField(max_length=24, blank=True)
    cautions = models.JSONField(default=list)
    by_hand = models.BooleanField(default=False)
    is_dropped = models.BooleanField(default=False)

    class Meta:
        ordering = ["likely", "key"]
        indexes = [models.Index(fields=["programme", "likely"])]
        constraints = [models.UniqueConstraint(fields=["programme", "key"], name="a_key_once_per_version")]

    def __str__(self):
        return self.what
