"""The facts of one green that its programme is drawn from."""

from dataclasses import dataclass
from datetime import date

from growin.agronomy.impossible import require_above, require_range
from growin.agronomy.season import AUTUMN, season_of_laying
from growin.agronomy.species import Species, establishment_named, is_turf, species_named

SHALLOW_ROOTZONE, MISSING_FALL, TURF_SOIL_FINER = "shallow_rootzone", "missing_fall", "turf_soil_finer"


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
    turf_soil_finer : bool
        The turf's own soil is finer than the rootzone under it.
    risks : tuple of str
        What the record of the building says is out ("shallow_rootzone", "missing_fall").
    distance_to_water_m : float or None
        To the nearest surface water.
    bulk_density_t_m3 : float
        Of the dressing sand, dry.
    """

    area_m2: float
    establishment: str
    species: str
    established_on: date
    latitude_deg: float
    summer_height_mm: float | None = None
    others_height_mm: float | None = None
    turf_soil_finer: bool = False
    risks: tuple[str, ...] = ()
    distance_to_water_m: float | None = None
    bulk_density_t_m3: float = 1.6

    def __post_init__(self):
        require_above("area of the green, m²", self.area_m2)
        establishment_named(self.establishment)
        species_named(self.species)
        require_range("latitude, degrees", self.latitude_deg, -90, 90)
        require_range("bulk density of the sand, t/m³", self.bulk_density_t_m3, 1.0, 2.0)
        self._check_heights()

    def _check_heights(self):
        for what, height in (
            ("summer height, mm", self.summer_height_mm),
            ("height of the other greens, mm", self.others_height_mm),
        ):
            if height is not None:
                require_range(what, height, 2, 15)

    @property
    def grass(self) -> Species:
        """The row of the species table."""
        return species_named(self.species)

    @property
    def is_turf(self) -> bool:
        return is_turf(self.establishment)

    @property
    def season(self) -> str:
        """Season of laying or sowing: "autumn" or "in growth"."""
        return season_of_laying(self.established_on, self.latitude_deg)

    @property
    def is_autumn_turf(self) -> bool:
        """Turf laid September to February (March to August in the south): it rests over winter."""
        return self.is_turf and self.season == AUTUMN
