"""A file of weather days: how its columns are read, what was agreed, what it changed."""

from django.db import models

from greens.models.uploaded_table import UploadedTable


class WeatherUpload(UploadedTable):
    """``columns`` is [place, unit] by quantity; ``by_hand_days`` are those written by hand that may be
    replaced; ``before`` holds what every changed day was, so that the import can be undone.
    """

    club = models.ForeignKey("greens.Club", models.CASCADE, related_name="weather_uploads")
    is_unit_sure = models.BooleanField(default=False)
    source = models.CharField(max_length=40, blank=True)
    is_estimated = models.BooleanField(default=False)
    takes_different = models.BooleanField(default=False)
    by_hand_days = models.JSONField(default=list)
    before = models.JSONField(default=dict)

    @property
    def is_settled(self) -> bool:
        """Whether its days are kept, or about to be."""
        return self.imported_at is not None or (self.job is not None and self.job.is_open)
