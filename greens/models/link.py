"""Single-use links for invitations and new passwords; only a hash of the secret is kept."""

import hashlib

from django.db import models

from greens.choices import LinkPurpose


def hashed(secret: str) -> str:
    """What is kept of a secret: it cannot be turned back, and long random secrets want no salt."""
    return hashlib.sha256(secret.encode(errors="replace")).hexdigest()


class Link(models.Model):
    """``membership`` is what an invitation opens, ``person`` whose password a reset replaces."""

    purpose = models.CharField(max_length=12, choices=LinkPurpose.choices)
    secret_hash = models.CharField(max_length=64, unique=True)
    email = models.EmailField(max_length=254)
    person = models.ForeignKey("greens.Person", models.CASCADE, null=True, blank=True, related_name="links")
    membership = models.ForeignKey(
        "greens.Membership", models.CASCADE, null=True, blank=True, related_name="links"
    )
    made_at = models.DateTimeField(auto_now_add=True)
    expires_at = models.DateTimeField()
    used_at = models.DateTimeField(null=True, blank=True)

    def __str__(self):
        return f"{self.get_purpose_display()} for {self.email}"
