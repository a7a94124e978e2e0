"""Take-all on bent: what on record favours it, each with its evidence, and what nobody has measured.

Rising pH, limy sand and hard water favour it, most in the first full seasons on new sand (common practice).
Nothing here names a remedy: a sheet and a spade tell more than a product.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from growin.agronomy.defaults import FROM_MEMORY, OUR_JUDGEMENT, Default, table
from growin.agronomy.plain_words import amount, dated
from growin.agronomy.species import WITH_BENT

#: mg/l of calcium carbonate to 1 mg/l of calcium and of magnesium, by their molar masses.
CACO3_PER_CA, CACO3_PER_MG = 100.087 / 40.078, 100.087 / 24.305
_FAO = "Ayers and Westcot, FAO Irrigation and Drainage Paper 29, 1985: 1.5 meq/l with overhead sprinklers"

DEFAULTS = table(
    Default("take_all.soil_ph", 6.5, "", "pH of the soil over which take-all is favoured", 5, 8.5,
            FROM_MEMORY),
    Default("take_all.ph_rise", 0.2, "", "rise of the pH that is told of", 0.1, 2, OUR_JUDGEMENT),
    Default("take_all.carbonate_percent", 1, "%", "calcium carbonate that makes a soil or sand limy", 0, 20,
            OUR_JUDGEMENT),
    Default("take_all.bicarbonate_mg_l", 92, "mg/l", "bicarbonate of the water over which it counts", 0, 1000,
            FROM_MEMORY, _FAO),
    Default("take_all.hardness_mg_l", 120, "mg/l", "hardness of the water, as calcium carbonate, that counts",
            0, 1000, FROM_MEMORY, "hard from 121: United States Geological Survey"),
)  # fmt: skip


@dataclass(frozen=True)
class Known:
    """What the record has of a green on a day.

    ``soil_ph`` and ``carbonate_percent`` are (day, value) pairs, oldest first; ``sands`` are those that the
    green was built of or dressed with, (name, % calcium carbonate by its sheet); ``water`` is the
    newest sheet of the water, (day, mg/l by element), None where there is none.
    """

    species: str
    laid_on: date
    on: date
    soil_ph: Sequence[tuple[date, float]] = ()
    carbonate_percent: Sequence[tuple[date, float]] = ()
    sands: Sequence[tuple[str, float]] = ()
    water: tuple[date, Mapping[str, float]] | None = None

    @property
    def has_bent(self) -> bool:
        """Whether there is any grass here that it lives on."""
        return self.species in WITH_BENT


def favours(known: Known, settings: Mapping[str, float]) -> list[str]:
    """What favours take-all here, a sentence each with its evidence; empty without bent."""
    if not known.has_bent:
        return []
    return [*_sand(known, settings), *_ph(known, settings), *_lime(known, settings), *_water(known, settings)]


def not_known(known: Known) -> list[str]:
    """What would tell more and is not on record, a sentence each; empty without bent."""
    said = (
        (known.soil_ph, "No soil analysis has a pH yet."),
        (
            known.carbonate_percent or known.sands,
            "No analysis of soil or sand says whether it is limy (calcium carbonate).",
        ),
        (known.water, "The irrigation water was not analysed yet."),
    )
    return [sentence for value, sentence in said if not value] if known.has_bent else []


def is_limy(carbonate_percent: float, settings: Mapping[str, float]) -> bool:
    """Whether so much calcium carbonate, % by weight, makes a soil or sand limy."""
    return carbonate_percent >= settings["take_all.carbonate_percent"]


def hardness_mg_l(ca_mg_l: float, mg_mg_l: float) -> float:
    """Hardness of a water as calcium carbonate, mg/l, from calcium and magnesium, mg/l.

    Source: Standard Methods for the Examination of Water and Wastewater, 2340 B: 2.497 Ca + 4.118 Mg.
    """
    return CACO3_PER_CA * ca_mg_l + CACO3_PER_MG * mg_mg_l


def _sand(known: Known, settings: Mapping[str, float]) -> Iterator[str]:
    if known.on < known.laid_on + timedelta(days=round(365 * (1 + settings["in_play.take_all_years"]))):
        yield (
            f"Bent on new sand, {dated(known.laid_on)}: in the first full seasons little in the sand holds "
            "take-all back."
        )


def _ph(known: Known, settings: Mapping[str, float]) -> Iterator[str]:
    if not known.soil_ph:
        return
    (first, before), (last, now), mark = known.soil_ph[0], known.soil_ph[-1], settings["take_all.soil_ph"]
    if now - before >= settings["take_all.ph_rise"] - 1e-9:
        yield f"The pH of the soil rose from {before:g} ({dated(first)}) to {now:g} ({dated(last)})."
    if now > mark:
        yield f"The pH of the soil was {now:g} on {dated(last)}, over {mark:g}."


def _lime(known: Known, settings: Mapping[str, float]) -> Iterator[str]:
    if known.carbonate_percent:
        on, percent = known.carbonate_percent[-1]
        if is_limy(percent, settings):
            yield f"The soil is limy: {amount(percent, '%')} calcium carbonate on {dated(on)}."
    for name, percent in known.sands:
        if is_limy(percent, settings):
            yield f"{name} is limy: {amount(percent, '%')} calcium carbonate by its laboratory sheet."


def _water(known: Known, settings: Mapping[str, float]) -> Iterator[str]:
    on, found = known.water or (known.on, {})
    bicarbonate, most = found.get("HCO3"), settings["take_all.bicarbonate_mg_l"]
    if bicarbonate is not None and bicarbonate > most:
        yield f"The water had {amount(bicarbonate, 'mg/l')} bicarbonate on {dated(on)}, over {most:g}."
    if "Ca" in found and "Mg" in found:
        hardness, most = hardness_mg_l(found["Ca"], found["Mg"]), settings["take_all.hardness_mg_l"]
        if hardness > most:
            yield (
                f"The water is hard: {amount(hardness, 'mg/l', 0)} as calcium carbonate on {dated(on)}, "
                f"over {most:g}."
            )
