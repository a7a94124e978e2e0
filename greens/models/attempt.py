"""Failed sign-ins, so that guessing is slowed down; nobody is ever locked out by them."""

from django.db import models


class Attempt(models.Model):
    """``key`` is a hash of a mailbox or of a network address."""

    key = models.CharField(max_length=64)
    at = models.DateTimeField()

    class Meta:
        indexes = [models.Index(fields=["key", "at"])]

    def __str__(self):
        return f"failed sign-in at {self.at:%Y-%m-%d %H:%M}"
