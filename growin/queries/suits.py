"""Whether a sand of the store suits the rootzone of a green, by the gradings on record."""

from collections.abc import Mapping, Sequence

from greens.choices import LayerKind
from greens.models import Green, Label, Layer, Material
from greens.queries.build import laboratory
from growin.agronomy.layering import fits_rootzone


def sand_on(label: Label, greens: Sequence[Green], settings: Mapping[str, float]) -> list[str]:
    """A sentence for each green whose rootzone and this sand both have a grading; one or two queries."""
    sheet = label.product.material
    if sheet is None or not sheet.grading:
        return []
    found = rootzones(greens)
    return [words(green, sheet, found[green.pk], settings) for green in greens if green.pk in found]


def rootzones(greens: Sequence[Green]) -> dict[int, Material]:
    """The graded rootzone of each green's newest rebuild that has one, by the green's id; one query."""
    layers = Layer.objects.filter(establishment__green__in=greens, kind=LayerKind.ROOTZONE)
    graded = layers.exclude(material=None).select_related("material", "establishment")
    rows = graded.order_by("establishment__number")
    return {one.establishment.green_id: one.material for one in rows if one.material.grading}


def words(green: Green, sand: Material, rootzone: Material, settings: Mapping[str, float]) -> str:
    fit = fits_rootzone(laboratory(sand), laboratory(rootzone), settings)
    said = {True: "suits", False: "does not suit", None: "cannot be compared with"}[fit.suits]
    return f"{sand} {said} the rootzone of {green}. {' '.join(fit.sentences)}"
