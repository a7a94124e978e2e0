"""A person's place in one club; staff without e-mail have a name and no person."""

from django.db import models
from django.db.models import Q

from greens.choices import Role


class Membership(models.Model):
    """Trail, diary and decisions name a membership, so that they outlive the person.

    ``is_shared`` is a device that several people use: it logs, and each time says whose work it was.
    """

    club = models.ForeignKey("greens.Club", models.CASCADE, related_name="memberships")
    person = models.ForeignKey(
        "greens.Person", models.SET_NULL, null=True, blank=True, related_name="memberships"
    )
    name = models.CharField(max_length=80)
    role = models.CharField(max_length=12, choices=Role.choices)
    is_shared = models.BooleanField(default=False)
    joined_at = models.DateTimeField(auto_now_add=True)
    ended_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(
                fields=["club", "person"],
                condition=Q(ended_at__isnull=True, person__isnull=False),
                name="one_current_membership_per_person_and_club",
            )
        ]

    def __str__(self):
        return self.name
