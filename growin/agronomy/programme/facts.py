"""The facts of one green that its programme is drawn from."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from growin.agronomy.closed_time import is_closed, read_day, span_in_words
from growin.agronomy.impossible import require_above, require_range
from growin.agronomy.season import AUTUMN, season_of_laying
from growin.agronomy.species import Species, establishment_named, is_turf, species_named

#: What the record of the building may say is out, and what the programme does about it.
DRIES_SOON = {
    "shallow_rootzone": "the rootzone is shallow here",
    "droughty_rootzone": "the rootzone holds little water",
}
HOLDS_WATER = {
    "missing_fall": "fall is missing under the green",
    "slow_drains": "the drains are slow",
    "slow_rootzone": "the rootzone lets water through slowly",
    "thin_gravel": "the gravel is thin",
}
SETTLES = {
    "settling": "the ground was made up or the trenches are wide",
    "gravel_contamination": "rootzone may wash into the gravel",
}
LAYERS = {
    "turf_soil_finer": "the turf came on soil finer than the rootzone",
    "layered_rootzone": "the rootzone has a layer of another grading",
}
CARRIED_ONLY = {
    "deep_rootzone": "the rootzone is deep",
    "soft_rootzone": "the rootzone is rich in organic matter",
    "no_irrigation": "water came late",
}
RISKS = DRIES_SOON | HOLDS_WATER | SETTLES | LAYERS | CARRIED_ONLY


@dataclass(frozen=True)
class GreenFacts:
    """What must be known of a green before a programme can be drawn.

    Attributes
    ----------
    area_m2 : float
    establishment, species : str
        Keys of :mod:`growin.agronomy.species`.
    established_on : date
        Day of laying or sowing.
    latitude_deg : float
        South negative.
    summer_height_mm : float or None
        The club's own summer height; None takes the default of the species.
    others_height_mm : float or None
        Height of cut of the club's other greens in the week of opening, where known.
    adviser_agrees : bool
        The club's adviser has agreed to the shorter gate for turf laid in growth.
    risks : tuple of str
        Keys of :data:`RISKS`: what the record of the building says is out.
    distance_to_water_m : float or None
        To the nearest surface water.
    bulk_density_t_m3 : float
        Of the dressing sand, dry.
    closed_from, closed_until : str
        The club's time of the year without feeding, as "10-15"; empty where there is none.
    year_limit_n_kg_ha, year_limit_p_kg_ha : float or None
        The club's own limits of a year, midwinter to midwinter.
    """

    area_m2: float
    establishment: str
    species: str
    established_on: date
    latitude_deg: float
    summer_height_mm: float | None = None
    others_height_mm: float | None = None
    adviser_agrees: bool = False
    risks: tuple[str, ...] = ()
    distance_to_water_m: float | None = None
    bulk_density_t_m3: float = 1.6
    closed_from: str = ""
    closed_until: str = ""
    year_limit_n_kg_ha: float | None = None
    year_limit_p_kg_ha: float | None = None

    def __post_init__(self):
        require_above("area of the green, m²", self.area_m2)
        establishment_named(self.establishment)
        species_named(self.species)
        require_range("year of laying or sowing", self.established_on.year, 1900, 2200)
        require_range("latitude, degrees", self.latitude_deg, -90, 90)
        require_range("bulk density of the sand, t/m³", self.bulk_density_t_m3, 1.0, 2.0)
        self._check_heights()
        self._check_feeding_rules()

    def _check_heights(self):
        for what, height in (
            ("summer height, mm", self.summer_height_mm),
            ("height of the other greens, mm", self.others_height_mm),
        ):
            if height is not None:
                require_range(what, height, 2, 15)

    def _check_feeding_rules(self):
        for day in filter(None, (self.closed_from, self.closed_until)):
            read_day(day)
        for element in ("n", "p"):
            limit = getattr(self, f"year_limit_{element}_kg_ha")
            if limit is not None:
                require_range(f"limit of a year, kg {element.upper()}/ha", limit, 0)

    def is_closed(self, day: date) -> bool:
        """Whether a day lies in the club's time without feeding."""
        return is_closed(day, self.closed_from, self.closed_until)

    @property
    def closed_words(self) -> str:
        """The time without feeding, "15 October to 31 January"; empty where there is none."""
        return span_in_words(self.closed_from, self.closed_until)

    @property
    def grass(self) -> Species:
        """The row of the species table."""
        return species_named(self.species)

    @property
    def is_turf(self) -> bool:
        """Whether turf was laid, not seed sown."""
        return is_turf(self.establishment)

    def risk_words(self, group: Mapping[str, str]) -> str:
        """The first risk of a group that this green carries, in words; empty when it carries none."""
        return next((words for key, words in group.items() if key in self.risks), "")

    @property
    def layer_words(self) -> str:
        """Why it wants coring, in words; empty when it does not."""
        return self.risk_words(LAYERS)

    @property
    def season(self) -> str:
        """Season of laying or sowing: "autumn" or "in growth"."""
        return season_of_laying(self.established_on, self.latitude_deg)

    @property
    def is_autumn_turf(self) -> bool:
        """Turf laid September to February (March to August in the south): it rests over winter."""
        return self.is_turf and self.season == AUTUMN
