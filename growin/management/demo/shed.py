"""What stands in the shed and lies under the greens of the invented club; names are ours."""

from datetime import date, timedelta

from greens.actions.material import keep_material
from greens.actions.stock import note_stock
from greens.actions.store import add_product
from greens.choices import AmountUnit, LabelBasis, MaterialKind, ProductKind, StockKind
from growin.management.demo.teller import Teller, dated

# Sieve mm and % passing; drawn to lie within the published construction recommendation.
ROOTZONE = [[3.4, 100], [2.0, 99], [1.0, 93], [0.5, 66], [0.25, 21], [0.15, 7], [0.05, 3.2], [0.002, 1.0]]
SAND = [[2.0, 100], [1.0, 96], [0.5, 64], [0.25, 18], [0.15, 5], [0.05, 1.2], [0.002, 0.4]]
GRAVEL = [[14, 100], [12, 96], [9, 88], [6, 12], [4, 4], [2, 2]]
GRIT = [[6, 100], [4, 97], [2, 42], [1, 4], [0.5, 1]]
TURF_SOIL = [[2.0, 100], [1.0, 97], [0.5, 78], [0.25, 46], [0.15, 29], [0.05, 17], [0.002, 6]]
PHYSICS = {
    "total_porosity_percent": 42,
    "air_filled_percent": 23,
    "capillary_percent": 19,
    "organic_matter_percent": 2.4,
    "ksat_mm_h": 310,
    "bulk_density_t_m3": 1.55,
}
MATERIALS = (
    (MaterialKind.ROOTZONE, "Dune mix 85/15", ROOTZONE, PHYSICS),
    (
        MaterialKind.SAND,
        "Washed dune sand",
        SAND,
        {"bulk_density_t_m3": 1.6, "ksat_mm_h": 620, "carbonate_percent": 0.4},
    ),
    (MaterialKind.GRAVEL, "River gravel 6–9 mm", GRAVEL, {}),
    (MaterialKind.BLINDING, "Grit 1–4 mm", GRIT, {}),
    (MaterialKind.TURF_SOIL, "Grower's fine loam", TURF_SOIL, {}),
)
LABEL_GRAMS = {"unit": AmountUnit.GRAMS, "basis": LabelBasis.BY_WEIGHT}
LABEL_ML = {"unit": AmountUnit.MILLILITRES}
# key in the story → kind, name, lines as printed, label
PRODUCTS = {
    "starter": (ProductKind.GRANULAR, "Starter 6-9-6", {"N_ammonium": 6, "P2O5": 9, "K2O": 6}, LABEL_GRAMS),
    "spring": (
        ProductKind.GRANULAR,
        "Cool-spring 8-0-4 with iron",
        {"N_ammonium": 6, "N_nitrate": 2, "K2O": 4, "Fe": 3},
        LABEL_GRAMS,
    ),
    "liquid": (
        ProductKind.LIQUID,
        "Leaf feed 12-0-6",
        {"N_urea": 8, "N_nitrate": 4, "K2O": 6},
        LABEL_ML | {"basis": LabelBasis.BY_VOLUME},
    ),
    "slow": (
        ProductKind.GRANULAR,
        "Slow 20-0-8",
        {"N_slow": 12, "N_urea": 8, "K2O": 8},
        LABEL_GRAMS | {"release_weeks": 10},
    ),
    "sand": (ProductKind.SAND, "Washed dune sand", {}, LABEL_GRAMS | {"bulk_density_t_m3": 1.6}),
    "wetting": (
        ProductKind.WETTING_AGENT,
        "Wetting agent",
        {},
        LABEL_ML | {"basis": LabelBasis.BY_WEIGHT, "density_kg_l": 1.02},
    ),
    "seed": (ProductKind.SEED, "Fescue and bent 80/20", {}, LABEL_GRAMS),
}
#: What the last count found, in kg or litres: enough for the next weeks but for the feed of the spring.
COUNTED = {"starter": 40, "spring": 2, "liquid": 1, "slow": 60, "sand": 14_000, "wetting": 18, "seed": 25}
COUNTED_AGO = timedelta(days=9)


def fill_the_shed(teller: Teller, since: date) -> dict:
    """Materials by kind; products' labels go to the teller."""
    materials = {
        kind: keep_material(
            club=teller.club, by=teller.head, kind=kind, name=name, grading=grading,
            laboratory="County soil laboratory", tested_on=since, **physics,
        )
        for kind, name, grading, physics in MATERIALS
    }  # fmt: skip
    for key, (kind, name, lines, label) in PRODUCTS.items():
        more = {"material": materials[MaterialKind.SAND]} if key == "sand" else {}
        product = add_product(
            club=teller.club,
            by=teller.head,
            kind=kind,
            name=name,
            lines=lines,
            from_day=since,
            **label,
            **more,
        )
        teller.labels[key] = product.labels.get()
    return materials


def count_the_shed(teller: Teller, today: date) -> None:
    """Everything was counted some days ago, by the head greenkeeper."""
    on = today - COUNTED_AGO
    for key, amount in COUNTED.items():
        said = {"kind": StockKind.COUNTED, "on": on, "amount": amount * 1000, "by": teller.head}
        dated(teller, on, lambda said=said, key=key: note_stock(product=teller.labels[key].product, **said))
