"""Whether a sand suits the rootzone and the grass of a green, by the laboratory's sheets on record."""

from collections.abc import Iterator, Mapping, Sequence

from django.db.models import Exists, OuterRef, Prefetch

from greens.choices import LayerKind, ProductKind
from greens.models import EntryProduct, Establishment, Green, Label, Layer, Material
from greens.queries.build import laboratory
from growin.agronomy.layering import fits_rootzone
from growin.agronomy.plain_words import amount
from growin.agronomy.species import WITH_BENT
from growin.agronomy.take_all import is_limy


def sand_on(label: Label, greens: Sequence[Green], settings: Mapping[str, float]) -> list[str]:
    """On each green: against the grading of its rootzone, and against bent; three queries at most."""
    sand = label.product.material
    if sand is None:
        return []
    found = rebuilds(greens)
    said = (words_on(found[green.pk], sand, settings) for green in greens if green.pk in found)
    return [sentence for some in said for sentence in some]


def rebuilds(greens: Sequence[Green]) -> dict[int, Establishment]:
    """The newest rebuild of each green by the green's id, with the rootzone in it as ``rootzones``."""
    rootzones = Layer.objects.filter(kind=LayerKind.ROOTZONE).exclude(material=None)
    with_layers = Prefetch("layers", rootzones.select_related("material"), to_attr="rootzones")
    rows = Establishment.objects.filter(green__in=greens).order_by("number")
    return {one.green_id: one for one in rows.select_related("green").prefetch_related(with_layers)}


def words_on(rebuild: Establishment, sand: Material, settings: Mapping[str, float]) -> Iterator[str]:
    for layer in rebuild.rootzones:
        if sand.grading and layer.material.grading:
            yield grading_words(rebuild.green, sand, layer.material, settings)
    if rebuild.species in WITH_BENT and is_limy(sand.carbonate_percent or 0, settings):
        lime = amount(float(sand.carbonate_percent), "%")
        yield f"{sand} is limy, {lime} calcium carbonate: on the bent of {rebuild.green} it favours take-all."


def grading_words(green: Green, sand: Material, rootzone: Material, settings: Mapping[str, float]) -> str:
    fit = fits_rootzone(laboratory(sand), laboratory(rootzone), settings)
    said = {True: "suits", False: "does not suit", None: "cannot be compared with"}[fit.suits]
    return f"{sand} {said} the rootzone of {green}. {' '.join(fit.sentences)}"


def limes_of(rebuild: Establishment) -> list[tuple[str, float]]:
    """Name and % calcium carbonate of each sand that a rebuild was built of or dressed with; one query."""
    of_it = OuterRef("pk")
    built = Layer.objects.filter(establishment=rebuild, kind=LayerKind.ROOTZONE, material=of_it)
    dressed = EntryProduct.objects.filter(
        label__product__kind=ProductKind.SAND,
        label__product__material=of_it,
        entry__taken_back_at=None,
        entry__lines__establishment=rebuild,
    )
    tested = rebuild.green.club.materials.filter(carbonate_percent__isnull=False)
    used = tested.filter(Exists(built) | Exists(dressed))
    return [(one.name, float(one.carbonate_percent)) for one in used]
