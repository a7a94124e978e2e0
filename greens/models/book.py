"""A book that a club kept before: its diary, its store or its readings, as a spreadsheet."""

from django.db import models

from greens.choices import BookKind
from greens.models.uploaded_table import UploadedTable


class Book(UploadedTable):
    """``columns`` is the key of ours by the place of theirs; ``said_once`` holds what no column says;
    ``values`` what their words mean, by column and word; ``order`` and ``comma`` how days and figures
    are read, empty until it is told or asked. ``found`` is the last look at it, ``result`` what was kept.
    """

    club = models.ForeignKey("greens.Club", models.CASCADE, related_name="books")
    kind = models.CharField(max_length=8, choices=BookKind.choices)
    row_count = models.PositiveIntegerField(default=0)
    said_once = models.JSONField(default=dict)
    values = models.JSONField(default=dict)
    comma = models.CharField(max_length=1, blank=True)
    fills_down = models.BooleanField(default=False)
    found = models.JSONField(default=dict)
    left_out = models.PositiveIntegerField(default=0)

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
