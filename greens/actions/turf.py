"""The turf that was laid."""

from django.db import transaction

from greens.actions.kept import keep
from greens.models import Establishment, Membership, Turf


@transaction.atomic
def set_turf(*, establishment: Establishment, by: Membership, **values) -> Turf | None:
    """source, age_months, species_percent (pairs of name and share), cut_thickness_mm, thatch_mm,
    lifted_on, soil (a material)."""
    return keep(
        rows=Turf.objects,
        key={"establishment": establishment},
        values=values,
        club=establishment.green.club,
        by=by,
        green=establishment.green,
        words="the turf",
    )
