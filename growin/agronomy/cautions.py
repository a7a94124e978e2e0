"""Cautions and law, said where work is planned and logged.

A caution defers to the label, the law of the place and the club's own risk assessment; the
tool never says that anything is compliant. Its condition is spoken as "if …" unless the
day's weather or the distance to water was given.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from growin.agronomy.defaults import COMMON_PRACTICE, FROM_MEMORY, PUBLISHED, Default, table
from growin.agronomy.plain_words import amount
from growin.agronomy.work import Work
from growin.agronomy.works import work_of

RISK_ASSESSMENT = "the club's own risk assessment"

DEFAULTS = table(
    Default(
        "caution.distance_to_water_m",
        3,
        "m",
        "Distance to keep from surface water when feeding",
        1,
        250,
        FROM_MEMORY,
        "Great Britain 2 m (read), Ireland 3 m (recalled); wells and abstraction points far more",
    ),
    Default(
        "caution.heavy_rain_mm",
        10,
        "mm",
        "Rain in the next 48 h that counts as heavy",
        2,
        100,
        COMMON_PRACTICE,
    ),
    Default(
        "caution.frost_c", 0, "°C", "Minimum at which leaf and ground may be frozen", -5, 5, COMMON_PRACTICE
    ),
    Default(
        "caution.wet_mm",
        15,
        "mm",
        "Rain of the day that may leave the green waterlogged",
        2,
        100,
        COMMON_PRACTICE,
    ),
)


@dataclass(frozen=True)
class Caution:
    """One caution: ``sentence`` opens with its condition, ``refers_to`` names what stands above it."""

    key: str
    words: str
    sentence: str
    refers_to: str
    mark: str = COMMON_PRACTICE
    source: str = ""

    @property
    def said(self) -> str:
        """The sentence and what stands above it."""
        return f"{self.sentence} {self.decides}"

    @property
    def decides(self) -> str:
        """What stands above it, in a sentence: "The label, then local law, decide."."""
        several = " and " in self.refers_to or ", " in self.refers_to
        return f"{self.refers_to[0].upper()}{self.refers_to[1:]} {'decide' if several else 'decides'}."


_LABEL_AND_LAW = "the label and local law"
_LISTED = (
    Caution(
        "fertiliser",
        "Fertiliser",
        "If the leaf is wet, or rain over 10 mm is likely within 48 hours, wait: spread on a dry leaf or "
        "water it in, and never on turf stressed by drought. Some countries and states limit phosphorus, "
        "dates or buyers; iron sulphate against moss needs a product authorised for it.",
        _LABEL_AND_LAW,
    ),
    Caution(
        "fertiliser_near_water",
        "Water nearby",
        "If surface water lies within 3 m, leave that strip unfed; wells and abstraction points need far "
        "more.",
        "local law",
        PUBLISHED,
        "Great Britain 2 m; Ireland 3 m from memory",
    ),
    Caution(
        "frozen_or_wet_turf",
        "Frozen or waterlogged turf",
        "If leaf or ground is frozen, thawing or waterlogged, keep feet, wheels and fertiliser off.",
        "the head greenkeeper",
        PUBLISHED,
        "USGA on frost",
    ),
    Caution(
        "sand_dust",
        "Sand dust",
        "If sand is handled dry, its dust holds silica that harms lungs: keep it damp, stay upwind, wear "
        "the respirator that was assessed.",
        RISK_ASSESSMENT,
        PUBLISHED,
        "Great Britain 0.1 mg/m³ over 8 h (COSHH); United States 0.05 mg/m³ (OSHA)",
    ),
    Caution(
        "machinery",
        "Machinery",
        "If there are slopes, wet edges or people near, go slowly or by hand; mind noise and vibration, "
        "and stop engine and reels before touching them.",
        RISK_ASSESSMENT,
    ),
    Caution(
        "spray",
        "Spraying",
        "If you spray, you hold the certificate or licence your country asks for, and the product is "
        "authorised for this use. Many labels forbid seedlings; in Britain nothing kills worms legally. "
        "Mind wind, water and re-entry; keep the record as long as local law asks (three years there).",
        "the label, local law and the licensed operator",
    ),
    Caution(
        "product_label",
        "Product label",
        "If the turf is young, thin or under stress, read the label for rate and watering in before you "
        "start.",
        "the label",
    ),
    Caution(
        "lifting",
        "Lifting",
        "If turf, sand or covers are heavy, share the lift or use a barrow; wet ones weigh far more.",
        RISK_ASSESSMENT,
    ),
    Caution(
        "water_edge",
        "Water edge",
        "If the work is beside a pond, ditch or stream, do not go alone, and let nothing run or drift "
        "into it.",
        f"local law and {RISK_ASSESSMENT}",
    ),
    Caution(
        "buried_services",
        "Buried services",
        "If tines, probes, stakes or spades go in, know first where cables, pipes and irrigation lie.",
        "the service drawings and a locator",
    ),
    Caution(
        "lone_work",
        "Working alone",
        "If you are alone or it is dark, tell somebody where you are and when you will be back.",
        RISK_ASSESSMENT,
    ),
    Caution(
        "golf_balls",
        "Golf balls",
        "If play goes on, mind the line of the temporary green: use rope or bell, or have the hole closed.",
        RISK_ASSESSMENT,
    ),
    Caution(
        "drought_rules",
        "Drought and abstraction",
        "If there is a drought ban or an abstraction limit, check what is exempt before watering.",
        "the water company or licence",
    ),
    Caution(
        "construction_site",
        "Construction site",
        "If the rebuild is still a site, the contractor's rules hold on it; the club is the client and "
        "keeps plan and file (CDM 2015 in Great Britain; Ireland and Northern Ireland have their own).",
        "the construction phase plan",
    ),
)
CAUTIONS: Mapping[str, Caution] = {one.key: one for one in _LISTED}


@dataclass(frozen=True)
class Today:
    """What was entered of the day; None where nothing was. Metres, °C, mm."""

    distance_to_water_m: float | None = None
    day_min_c: float | None = None
    rain_mm: float | None = None
    rain_next_48_h_mm: float | None = None


def cautions_for(
    work: str | Work,
    *,
    distance_to_water_m: float | None = None,
    day_min_c: float | None = None,
    rain_mm: float | None = None,
    rain_next_48_h_mm: float | None = None,
    settings: Mapping[str, float] | None = None,
) -> tuple[Caution, ...]:
    """The cautions of one kind of work; those that the day rules out are left away.

    Parameters
    ----------
    distance_to_water_m : metres from the green to surface water.
    day_min_c, rain_mm : minimum and rain of the day, °C and mm.
    rain_next_48_h_mm : rain expected, mm.
    settings : values of :data:`DEFAULTS`; the defaults when missing.

    Raises
    ------
    ImpossibleValue
        For an unknown kind of work.
    """
    kind = work_of(work) if isinstance(work, str) else work
    today = Today(distance_to_water_m, day_min_c, rain_mm, rain_next_48_h_mm)
    limits = {key: one.value for key, one in DEFAULTS.items()} | dict(settings or {})
    said = (_as_of_today(CAUTIONS[key], today, limits) for key in kind.cautions)
    return tuple(one for one in said if one is not None)


def _as_of_today(caution: Caution, today: Today, limits: Mapping[str, float]) -> Caution | None:
    judge = _BY_THE_DAY.get(caution.key)
    return judge(caution, today, limits) if judge else caution


def _instead(caution: Caution, sentence: str) -> Caution:
    return Caution(caution.key, caution.words, sentence, caution.refers_to, caution.mark, caution.source)


def _near_water(caution: Caution, today: Today, limits: Mapping[str, float]) -> Caution | None:
    keep_m, metres = limits["caution.distance_to_water_m"], today.distance_to_water_m
    if metres is None:
        return _instead(caution, caution.sentence.replace("3 m", amount(keep_m, "m")))
    if metres >= keep_m:
        return None
    near, keep = amount(metres, "m"), amount(keep_m, "m")
    return _instead(caution, f"Water lies {near} away: feed nothing within {keep} of it.")


def _frozen_or_wet(caution: Caution, today: Today, limits: Mapping[str, float]) -> Caution | None:
    frozen = today.day_min_c is not None and today.day_min_c <= limits["caution.frost_c"]
    wet = today.rain_mm is not None and today.rain_mm >= limits["caution.wet_mm"]
    if frozen:
        return _instead(
            caution, f"The night went down to {amount(today.day_min_c, '°C')}: {_KEEP_OFF} frozen."
        )
    if wet:
        return _instead(caution, f"{amount(today.rain_mm, 'mm')} of rain fell: {_KEEP_OFF} waterlogged.")
    known_mild_and_dry = today.day_min_c is not None and today.rain_mm is not None
    return None if known_mild_and_dry else caution


_KEEP_OFF = "keep feet, wheels and fertiliser off while leaf or ground is"


def _before_rain(caution: Caution, today: Today, limits: Mapping[str, float]) -> Caution:
    heavy_mm, coming_mm = limits["caution.heavy_rain_mm"], today.rain_next_48_h_mm
    if coming_mm is not None and coming_mm >= heavy_mm:
        coming = amount(coming_mm, "mm")
        return _instead(caution, f"{coming} of rain is expected within 48 hours: wait with the fertiliser.")
    return _instead(caution, caution.sentence.replace("10 mm", amount(heavy_mm, "mm")))


_BY_THE_DAY = {
    "fertiliser": _before_rain,
    "fertiliser_near_water": _near_water,
    "frozen_or_wet_turf": _frozen_or_wet,
}
