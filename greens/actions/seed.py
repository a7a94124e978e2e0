"""The seed mix that was sown, line by line as on its certificate."""

from collections.abc import Sequence

from django.db import transaction

from greens.actions import trail
from greens.models import Establishment, Membership, SeedLine


@transaction.atomic
def set_seed_mix(*, establishment: Establishment, by: Membership, lines: Sequence[dict]) -> list[SeedLine]:
    """Replace the mix; each line has variety, share_percent, purity_percent, germination_percent."""
    before = [str(line) for line in establishment.seed_lines.all()]
    establishment.seed_lines.all().delete()
    rows = SeedLine.objects.bulk_create(SeedLine(establishment=establishment, **line) for line in lines)
    changes = {"mix": [before, [str(row) for row in rows]]}
    green = establishment.green
    deed = f"Entered the seed mix of {green.name}"
    trail.write(club=green.club, by=by, deed=deed, row=establishment, green=green, changes=changes)
    return rows
