"""Photographs and documents; the bytes lie outside the web root under a random key."""

from django.db import models

from greens.choices import FileKind


class StoredFile(models.Model):
    club = models.ForeignKey("greens.Club", models.CASCADE, related_name="files")
    green = models.ForeignKey("greens.Green", models.SET_NULL, null=True, blank=True, related_name="files")
    entry = models.ForeignKey("greens.Entry", models.SET_NULL, null=True, blank=True, related_name="files")
    reading_set = models.ForeignKey(
        "greens.ReadingSet", models.SET_NULL, null=True, blank=True, related_name="files"
    )
    product = models.ForeignKey(
        "greens.Product", models.SET_NULL, null=True, blank=True, related_name="files"
    )
    kind = models.CharField(max_length=10, choices=FileKind.choices)
    key = models.CharField(max_length=64, unique=True)
    name = models.CharField(max_length=120)
    content_type = models.CharField(max_length=80)
    size_bytes = models.PositiveBigIntegerField()
    taken_on = models.DateField()
    caption = models.CharField(max_length=200, blank=True)
    fixed_point = models.CharField("fixed point it was taken from", max_length=60, blank=True)
    by = models.ForeignKey("greens.Membership", models.PROTECT, related_name="+")
    stored_at = models.DateTimeField(auto_now_add=True)
    client_id = models.UUIDField(null=True, blank=True)

    class Meta:
        ordering = ["-taken_on", "-pk"]
        constraints = [
            models.UniqueConstraint(fields=["club", "client_id"], name="an_attachment_arrives_once_per_club")
        ]

    def __str__(self):
        return self.caption or self.name
