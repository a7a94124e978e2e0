"""Materials of a club and what the laboratory found in them."""

from django.db import transaction

from greens.actions import trail
from greens.choices import MaterialKind
from greens.models import Club, Material, Membership
from greens.queries import record


class NameTaken(Exception):
    """The club already has such a material of that name; the message is for people."""


@transaction.atomic
def keep_material(
    *,
    club: Club,
    by: Membership,
    kind: MaterialKind,
    name: str,
    material: Material | None = None,
    **found,
) -> Material:
    """A new material, or changes to ``material``.

    ``found`` may hold laboratory, tested_on, grading (pairs of sieve mm and % passing),
    total_porosity_percent, air_filled_percent, capillary_percent, organic_matter_percent,
    carbonate_percent, ksat_mm_h, bulk_density_t_m3. Raises NameTaken.
    """
    refuse_taken(club, kind, name, material)
    values = {"kind": kind, "name": name} | found
    if material is not None:
        deed = f"Changed the material {material.name}"
        trail.save_changes(row=material, values=values, club=club, by=by, deed=deed)
        return material
    row = Material.objects.create(club=club, **values)
    changes = trail.as_created(values)
    trail.write(club=club, by=by, deed=f"Entered the material {name}", row=row, changes=changes)
    return row


def refuse_taken(club: Club, kind: MaterialKind, name: str, besides: Material | None) -> None:
    Club.objects.select_for_update().get(pk=club.pk)
    same = record.materials(club).filter(kind=kind, name__iexact=name)
    if same.exclude(pk=besides.pk if besides else None).exists():
        words = MaterialKind(kind).label.lower()
        raise NameTaken(f"{club.name} already has a material called {name} under {words}.")
