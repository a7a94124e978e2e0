"""The watering system as it stood when the grass arrived."""

from django.db import transaction

from greens.actions.kept import keep
from greens.models import Establishment, Irrigation, Membership


@transaction.atomic
def set_irrigation(*, establishment: Establishment, by: Membership, **values) -> Irrigation | None:
    """live_on, audited_on, heads, hose_ready_on."""
    return keep(
        rows=Irrigation.objects,
        key={"establishment": establishment},
        values=values,
        club=establishment.green.club,
        by=by,
        green=establishment.green,
        words="the irrigation",
    )
