"""What every table has that somebody sends: its file, its headers, who sent it, whether it is kept."""

from django.db import models


class UploadedTable(models.Model):
    """The table itself lies in a file, by its ``key``, until it is kept; ``columns`` say how it is read."""

    name = models.CharField(max_length=120)
    key = models.CharField(max_length=64, unique=True)
    headers = models.JSONField(default=list)
    columns = models.JSONField(default=dict)
    order = models.CharField(max_length=3, blank=True)
    job = models.ForeignKey("greens.Job", models.SET_NULL, null=True, blank=True, related_name="+")
    result = models.JSONField(default=dict)
    logged_by = models.ForeignKey("greens.Membership", models.PROTECT, related_name="+")
    made_at = models.DateTimeField(auto_now_add=True)
    imported_at = models.DateTimeField(null=True, blank=True)
    undone_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        abstract = True
        ordering = ["-made_at", "-pk"]

    def __str__(self):
        return self.name

    @property
    def is_kept(self) -> bool:
        """Whether what it brought stands in the record."""
        return self.imported_at is not None and self.undone_at is None
