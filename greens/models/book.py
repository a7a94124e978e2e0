"""A book that a club kept before: its diary, its store or its readings, as a spreadsheet."""

from django.db import models

from greens.choices import BookKind


class Book(models.Model):
    """The table itself lies in a file until it is kept.

    ``columns`` is the key of ours by the place of theirs; ``said_once`` holds what no column says;
    ``values`` what their words mean, by column and word; ``order`` and ``comma`` how days and figures
    are read, empty until it is told or asked. ``found`` is the last look at it, ``result`` what was kept.
    """

    club = models.ForeignKey("greens.Club", models.CASCADE, related_name="books")
    kind = models.CharField(max_length=8, choices=BookKind.choices)
    name = models.CharField(max_length=120)
    key = models.CharField(max_length=64, unique=True)
    headers = models.JSONField(default=list)
    row_count = models.PositiveIntegerField(default=0)
    columns = models.JSONField(default=dict)
    said_once = models.JSONField(default=dict)
    values = models.JSONField(default=dict)
    order = models.CharField(max_length=3, blank=True)
    comma = models.CharField(max_length=1, blank=True)
    fills_down = models.BooleanField(default=False)
    found = models.JSONField(default=dict)
    left_out = models.PositiveIntegerField(default=0)
    job = models.ForeignKey("greens.Job", models.SET_NULL, null=True, blank=True, related_name="+")
    result = models.JSONField(default=dict)
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
        """Whether what it brought stands in the record."""
        return self.imported_at is not None and self.undone_at is None

    @property
    def is_settled(self) -> bool:
        """Whether it is kept, or about to be."""
        is_at_work = self.job is not None and self.job.is_open and not self.is_looked_at
        return self.imported_at is not None or is_at_work

    @property
    def is_looked_at(self) -> bool:
        """Whether the work on it only looks."""
        return self.job is not None and bool(self.job.args.get("looks"))


class BookHabit(models.Model):
    """How a club's books of one kind are read: their headers and their words, as somebody said them."""

    club = models.ForeignKey("greens.Club", models.CASCADE, related_name="book_habits")
    kind = models.CharField(max_length=8, choices=BookKind.choices)
    columns = models.JSONField(default=dict)
    values = models.JSONField(default=dict)

    class Meta:
        constraints = [
            models.UniqueConstraint(fields=["club", "kind"], name="one_habit_for_each_kind_of_book")
        ]

    def __str__(self):
        return f"how {self.get_kind_display().lower()} of {self.club} is read"
