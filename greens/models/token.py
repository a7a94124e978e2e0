"""What lets a program of a member's read their club's record; only the hash of its secret is kept."""

from django.db import models


class Token(models.Model):
    """It reads as its member may, for as long as they belong to the club or until ``ended_at``.

    ``asked`` counts the questions of one ``minute``, so that a program that runs wild is slowed down.
    """

    member = models.ForeignKey("greens.Membership", models.CASCADE, related_name="tokens")
    name = models.CharField("what it is for", max_length=60)
    secret_hash = models.CharField(max_length=64, unique=True)
    made_at = models.DateTimeField(auto_now_add=True)
    used_at = models.DateTimeField(null=True, blank=True)
    ended_at = models.DateTimeField(null=True, blank=True)
    minute = models.DateTimeField(null=True, blank=True)
    asked = models.PositiveIntegerField(default=0)

    class Meta:
        ordering = ["-made_at", "-pk"]

    def __str__(self):
        return f"token “{self.name}” of {self.member}"
