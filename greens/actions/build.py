"""The build as it was done: what was dug, laid and levelled, and the drains beneath."""

from collections.abc import Mapping, Sequence
from datetime import date

from django.db import transaction

from greens.actions.kept import keep
from greens.choices import DrainKind, LayerKind
from greens.models import Drain, Establishment, Layer, Material, Membership


@transaction.atomic
def set_layer(
    *,
    establishment: Establishment,
    by: Membership,
    kind: LayerKind,
    depths_mm: Sequence[float],
    material: Material | None = None,
    levelled_on: date | None = None,
    placing: str = "",
) -> Layer | None:
    """The single level readings of one layer, mm, with what it is made of."""
    values = {"depths_mm": list(depths_mm), "material": material}
    values |= {"levelled_on": levelled_on, "placing": placing}
    return keep(
        rows=establishment.layers,
        key={"kind": kind},
        values=values,
        club=establishment.green.club,
        by=by,
        green=establishment.green,
        words=f"the layer: {LayerKind(kind).label.lower()}",
    )


@transaction.atomic
def set_layers(*, establishment: Establishment, by: Membership, layers: Mapping[LayerKind, dict]) -> None:
    for kind, values in layers.items():
        set_layer(establishment=establishment, by=by, kind=kind, **values)


@transaction.atomic
def set_drain(*, establishment: Establishment, by: Membership, kind: DrainKind, **values) -> Drain | None:
    """Main or laterals: spacing_m, trench_width_mm, trench_depth_mm, bedding_mm, fall_percent,
    pipe_mm, is_perforated, reaches_edge."""
    return keep(
        rows=establishment.drains,
        key={"kind": kind},
        values=values,
        club=establishment.green.club,
        by=by,
        green=establishment.green,
        words=f"the drains: {DrainKind(kind).label.lower()}",
    )


@transaction.atomic
def set_drains(*, establishment: Establishment, by: Membership, drains: Mapping[DrainKind, dict]) -> None:
    for kind, values in drains.items():
        set_drain(establishment=establishment, by=by, kind=kind, **values)
