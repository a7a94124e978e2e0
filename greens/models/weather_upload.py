"""A file of weather days: how its columns are read, what was agreed, what it changed."""

from django.db import models


class WeatherUpload(models.Model):
    """The table itself lies in a file until it is kept.

    ``columns`` is [place, unit] by quantity; ``by_hand_days`` are those written by hand that may be
    replaced; ``before`` holds what every changed day was, so that the import can be undone.
    """

    club = models.ForeignKey("greens.Club", models.CASCADE, related_name="weather_uploads")
    name = models.CharField(max_length=120)
    key = models.CharField(max_length=64, unique=True)
    headers = models.JSONField(default=list)
    columns = models.JSONField(default=dict)
    order = models.CharField(max_length=3, blank=True)
    is_unit_sure = models.BooleanField(default=False)
    source = models.CharField(max_length=40, blank=True)
    is_estimated = models.BooleanField(default=False)
    takes_different = models.BooleanField(default=False)
    by_hand_days = models.JSONField(default=list)
    job = models.ForeignKey("greens.Job", models.SET_NULL, null=True, blank=True, related_name="+")
    result = models.JSONField(default=dict)
    before = models.JSONField(default=dict)
    logged_by = models.ForeignKey("greens.Membership", models.PROTECT, related_name="+")
    made_at = models.DateTimeField(auto_now_add=True)
    imported_at = models.DateTimeField(null=True, blank=True)
    undone_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ["-made_at", "-pk"]

    def __str__(self):
        return self.name

    @property
    def is_kept(self) -> bool:
        """Whether its days stand in the record."""
        return self.imported_at is not None and self.undone_at is None

    @property
    def is_settled(self) -> bool:
        """Whether its days are kept, or about to be."""
        return self.imported_at is not None or (self.job is not None and self.job.is_open)
