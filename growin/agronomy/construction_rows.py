"""The rows a build is judged by: limits, and what each side means for the grow-in when out."""

from collections.abc import Mapping
from dataclasses import dataclass

from growin.agronomy import rootzone as sizes
from growin.agronomy.build_facts import BLINDING, DRAINS, GRAVEL, ROOTZONE
from growin.agronomy.construction_defaults import DEFAULTS
from growin.agronomy.defaults import Default, merge

LIMITS: Mapping[str, Default] = merge((DEFAULTS, sizes.DEFAULTS))

Settings = Mapping[str, float]


@dataclass(frozen=True)
class Bounds:
    """One row to be judged: keys of its limits, and what each side means when out."""

    item: str
    words: str
    least: str = ""
    most: str = ""
    if_less: tuple[str, str] = ("", "")
    if_more: tuple[str, str] = ("", "")
    band: str = ""
    layer: str = ""

    def limits(self, settings: Settings) -> tuple[float | None, float | None]:
        """Least and most, None for none."""
        return tuple(settings[key] if key else None for key in (self.least, self.most))

    @property
    def shown_by(self) -> Default:
        """The default that gives unit, mark and source."""
        return LIMITS[self.least or self.most]


_SHALLOW = ("It dries sooner: water little and often, and watch for wilt first here.", "shallow_rootzone")
_DEEP = ("It holds less water near the surface: roots have further to go, water deeper.", "deep_rootzone")
_THIN_GRAVEL = ("Water stands longer over thin gravel: keep off after rain.", "thin_gravel")
_FINE_GRAVEL = ("Gravel this fine drains slowly: keep off after rain.", "slow_gravel")
_WET = ("Water moves slowly: light feeds, no rolling in the wet, watch for black layer.", "slow_rootzone")
_DRY = ("It holds little water and feed: feed and water little and often.", "droughty_rootzone")
_LAYERED = ("A layer of another grading stops roots and water: core and dress to match.", "layered_rootzone")
_FINES = (
    "Fines wash into pores: expect slower water, core and dress from late summer on.",
    "slow_rootzone",
)
_MIGRATES = (
    "Rootzone may wash into the gravel: watch for hollows and cloudy drains.",
    "gravel_contamination",
)
DIGGING = ("Less room for the layers than drawn: check the depth of each.", "shallow_rootzone")
OVERDUG = ("Made-up ground settles: watch levels over winter.", "settling")
DRAINS_OUT = ("Water leaves slowly here: watch for wet places, keep off after rain.", "slow_drains")
_SETTLES = ("A wide or deep trench settles: level again before spring.", "settling")
NO_FALL = ("Without a fall water and silt stay in the pipe: the green stays wet.", "missing_fall")
_RICH = ("Much organic matter holds water: feed lightly, watch moss and disease.", "soft_rootzone")
_LEAN = ("Little organic matter holds little: feed and water little and often.", "droughty_rootzone")

GRAVEL_DEPTH = Bounds(
    "gravel_depth", "Gravel blanket", "build.gravel_least_mm", "", _THIN_GRAVEL, layer=GRAVEL
)
ROOTZONE_DEPTH = Bounds(
    "rootzone_depth",
    "Rootzone",
    "build.rootzone_least_mm",
    "build.rootzone_most_mm",
    _SHALLOW,
    _DEEP,
    layer=ROOTZONE,
)
BLINDING_DEPTH = Bounds(
    "blinding_depth",
    "Blinding layer",
    "build.blinding_least_mm",
    "build.blinding_most_mm",
    _MIGRATES,
    _LAYERED,
    layer=BLINDING,
)


def _drain(item, words, least, most="", if_more=_SETTLES, if_less=DRAINS_OUT) -> Bounds:
    least, most = (f"build.{key}" if key else "" for key in (least, most))
    return Bounds(item, words, least, most, if_less, if_more, layer=DRAINS)


DRAIN_ROWS = (
    ("trench_width_mm", _drain("trench_width", "Drain trench, width", "trench_width_least_mm")),
    ("trench_depth_mm", _drain("trench_depth", "Drain trench, depth", "trench_depth_least_mm")),
    ("bedding_mm", _drain("bedding", "Gravel under the pipe", "bedding_least_mm")),
    ("lateral_spacing_m", _drain("laterals", "Laterals apart", "", "lateral_spacing_most_m", DRAINS_OUT)),
    ("fall_percent", _drain("fall", "Least continuous fall", "fall_least_percent", if_less=NO_FALL)),
    ("main_mm", _drain("main", "Main pipe", "main_least_mm", "main_most_mm")),
    ("lateral_mm", _drain("lateral", "Lateral pipe", "lateral_least_mm", "lateral_most_mm")),
)


def _pores(item: str, words: str, key: str, if_less, if_more) -> Bounds:
    return Bounds(
        item,
        words,
        f"build.{key}_least_percent",
        f"build.{key}_most_percent",
        if_less,
        if_more,
        "build.pore_band",
        ROOTZONE,
    )


ROOTZONE_ROWS = (
    ("total_porosity_percent", _pores("porosity", "Total porosity", "porosity", _WET, _DRY)),
    ("air_filled_percent", _pores("air_filled", "Air-filled pores", "air", _WET, _DRY)),
    ("capillary_percent", _pores("capillary", "Capillary pores", "capillary", _DRY, _WET)),
    (
        "organic_matter_percent",
        _pores("organic_matter", "Organic matter of the mix", "organic", _LEAN, _RICH),
    ),
    (
        "ksat_mm_h",
        Bounds(
            "ksat",
            "Laboratory Ksat",
            "build.ksat_least_mm_h",
            "",
            _WET,
            band="build.ksat_band",
            layer=ROOTZONE,
        ),
    ),
)


def _fraction(
    item: str, words: str, key: str, out: tuple[str, str], layer: str, floor: bool = False
) -> Bounds:
    least, most = (key, "") if floor else ("", key)
    return Bounds(item, words, least, most, out, out, "build.fraction_band", layer)


# From mm, to mm, row: shares between two sizes of the curve; 0 takes in all that is finer, ALL all coarser.
ALL = float("inf")
GRADING_ROWS = (
    (
        2.0,
        ALL,
        _fraction(
            "fine_gravel",
            "Gravel over 2 mm in the rootzone",
            "rootzone.fine_gravel_most_percent",
            _DRY,
            ROOTZONE,
        ),
    ),
    (
        1.0,
        ALL,
        _fraction(
            "very_coarse",
            "Over 1 mm in the rootzone",
            "rootzone.gravel_and_very_coarse_most_percent",
            _DRY,
            ROOTZONE,
        ),
    ),
    (
        0.25,
        1.0,
        _fraction(
            "coarse_and_medium",
            "Coarse and medium sand, 0.25–1 mm",
            "rootzone.coarse_and_medium_least_percent",
            _LAYERED,
            ROOTZONE,
            floor=True,
        ),
    ),
    (
        0.15,
        0.25,
        _fraction("fine", "Fine sand, 0.15–0.25 mm", "rootzone.fine_most_percent", _FINES, ROOTZONE),
    ),
    (
        0.05,
        0.15,
        _fraction(
            "very_fine", "Very fine sand, 0.05–0.15 mm", "rootzone.very_fine_most_percent", _FINES, ROOTZONE
        ),
    ),
    (0.002, 0.05, _fraction("silt", "Silt", "rootzone.silt_most_percent", _FINES, ROOTZONE)),
    (0, 0.002, _fraction("clay", "Clay", "rootzone.clay_most_percent", _FINES, ROOTZONE)),
    (
        0,
        0.15,
        _fraction(
            "fines", "Very fine sand, silt and clay together", "rootzone.fines_most_percent", _FINES, ROOTZONE
        ),
    ),
)
BLINDED_GRAVEL_ROWS = (
    (
        12.0,
        ALL,
        _fraction(
            "gravel_over_12", "Gravel over 12 mm", "build.gravel_over_12_most_percent", _MIGRATES, GRAVEL
        ),
    ),
    (
        6.0,
        9.0,
        _fraction(
            "gravel_6_to_9",
            "Gravel within 6–9 mm",
            "build.gravel_6_to_9_least_percent",
            _MIGRATES,
            GRAVEL,
            floor=True,
        ),
    ),
    (
        0,
        2.0,
        _fraction(
            "gravel_under_2", "Gravel under 2 mm", "build.gravel_under_2_most_percent", _FINE_GRAVEL, GRAVEL
        ),
    ),
)
BLINDING_ROWS = (
    (
        1.0,
        4.0,
        _fraction(
            "blinding_1_to_4",
            "Blinding within 1–4 mm",
            "build.blinding_1_to_4_least_percent",
            _MIGRATES,
            BLINDING,
            floor=True,
        ),
    ),
)
FACTOR_ROWS = (
    Bounds(
        "bridging",
        "Bridging, D15 gravel by D85 rootzone",
        "",
        "gravel.bridging_most",
        if_more=_MIGRATES,
        layer=GRAVEL,
    ),
    Bounds(
        "permeability",
        "Permeability, D15 gravel by D15 rootzone",
        "gravel.permeability_least",
        "",
        _FINE_GRAVEL,
        layer=GRAVEL,
    ),
    Bounds(
        "uniformity",
        "Evenness, D90 by D15 of the gravel",
        "",
        "gravel.uniformity_most",
        if_more=_MIGRATES,
        layer=GRAVEL,
    ),
)
NO_WATER = (
    "New turf without water dies in days: hose from elsewhere, lay in a cool wet spell.",
    "no_irrigation",
)
FINER_TURF = (
    "The turf's soil is finer than the rootzone and layers on it: core from late summer on for 2–3 years.",
    "turf_soil_finer",
)
