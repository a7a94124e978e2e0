"""What a green should be built like: bounds of the record, each with mark and source."""

from collections.abc import Mapping

from growin.agronomy.defaults import COMMON_PRACTICE, FROM_MEMORY, OUR_JUDGEMENT, PUBLISHED, Default, table

USGA = "USGA, Recommendations for a Method of Putting Green Construction"
USGA_1993, USGA_2004, USGA_2018 = f"{USGA}, 1993", f"{USGA}, 2004", f"{USGA}, 2018"

# key, value, unit, words, low, high, mark, source
_ROWS = (
    (
        "excavation_blinded_least_mm",
        450,
        "mm",
        "Excavation with blinding, least",
        300,
        800,
        PUBLISHED,
        USGA_2004,
    ),
    (
        "excavation_blinded_most_mm",
        500,
        "mm",
        "Excavation with blinding, most",
        300,
        900,
        PUBLISHED,
        USGA_2004,
    ),
    ("excavation_least_mm", 400, "mm", "Excavation without blinding, least", 300, 800, PUBLISHED, USGA_2004),
    ("excavation_most_mm", 450, "mm", "Excavation without blinding, most", 300, 900, COMMON_PRACTICE, ""),
    ("gravel_least_mm", 100, "mm", "Gravel blanket, least", 50, 300, PUBLISHED, USGA_2018),
    ("blinding_least_mm", 50, "mm", "Blinding layer, least", 20, 150, PUBLISHED, f"{USGA_1993} and 2004"),
    ("blinding_most_mm", 100, "mm", "Blinding layer, most", 30, 200, PUBLISHED, f"{USGA_1993} and 2004"),
    ("rootzone_least_mm", 275, "mm", "Rootzone, least", 150, 400, PUBLISHED, f"{USGA}: 300 ± 25 mm"),
    ("rootzone_most_mm", 325, "mm", "Rootzone, most", 200, 500, PUBLISHED, f"{USGA}: 300 ± 25 mm"),
    ("trench_width_least_mm", 150, "mm", "Drain trench, width", 75, 500, PUBLISHED, USGA),
    ("trench_depth_least_mm", 200, "mm", "Drain trench, depth", 75, 600, PUBLISHED, USGA),
    ("bedding_least_mm", 25, "mm", "Gravel under the pipe", 0, 100, PUBLISHED, USGA),
    ("lateral_spacing_most_m", 5, "m", "Spacing of laterals", 2, 12, PUBLISHED, USGA),
    ("fall_least_percent", 0.5, "%", "Continuous fall, least", 0.1, 3, PUBLISHED, USGA),
    ("main_least_mm", 100, "mm", "Main pipe, least", 60, 200, PUBLISHED, USGA),
    ("main_most_mm", 110, "mm", "Main pipe, most", 60, 250, COMMON_PRACTICE, ""),
    ("lateral_least_mm", 80, "mm", "Lateral pipe, least", 40, 160, COMMON_PRACTICE, ""),
    ("lateral_most_mm", 100, "mm", "Lateral pipe, most", 40, 200, PUBLISHED, USGA),
    ("porosity_least_percent", 35, "%", "Total porosity, least", 20, 60, PUBLISHED, USGA),
    ("porosity_most_percent", 55, "%", "Total porosity, most", 30, 80, PUBLISHED, USGA),
    ("air_least_percent", 15, "%", "Air-filled pores, least", 5, 40, PUBLISHED, USGA),
    ("air_most_percent", 30, "%", "Air-filled pores, most", 10, 50, PUBLISHED, USGA),
    ("capillary_least_percent", 15, "%", "Capillary pores, least", 5, 40, PUBLISHED, USGA),
    ("capillary_most_percent", 25, "%", "Capillary pores, most", 10, 50, PUBLISHED, USGA),
    ("ksat_least_mm_h", 150, "mm/h", "Laboratory Ksat, least", 20, 1000, PUBLISHED, USGA),
    ("organic_least_percent", 1, "%", "Organic matter of the mix, least", 0, 10, FROM_MEMORY, ""),
    ("organic_most_percent", 5, "%", "Organic matter of the mix, most", 0, 20, FROM_MEMORY, ""),
    ("gravel_over_12_most_percent", 10, "%", "Gravel over 12 mm, most", 0, 50, PUBLISHED, USGA_1993),
    ("gravel_6_to_9_least_percent", 65, "%", "Gravel within 6–9 mm, least", 20, 100, PUBLISHED, USGA_1993),
    ("gravel_under_2_most_percent", 10, "%", "Gravel under 2 mm, most", 0, 50, PUBLISHED, USGA_1993),
    (
        "blinding_1_to_4_least_percent",
        90,
        "%",
        "Blinding within 1–4 mm, least",
        40,
        100,
        FROM_MEMORY,
        USGA_1993,
    ),
    (
        "ksat_band",
        0.2,
        "",
        "Laboratory spread on Ksat, share",
        0,
        0.5,
        PUBLISHED,
        "trade press on quality control",
    ),
    (
        "fraction_band",
        0.1,
        "",
        "Laboratory spread on fractions, share",
        0,
        0.35,
        OUR_JUDGEMENT,
        "10–35 % published",
    ),
    ("pore_band", 0.1, "", "Laboratory spread on pores, share", 0, 0.35, OUR_JUDGEMENT, ""),
    (
        "turf_fines_over_percent",
        5,
        "%",
        "Fines of turf soil above the rootzone's, most",
        0,
        50,
        OUR_JUDGEMENT,
        "",
    ),
)

DEFAULTS: Mapping[str, Default] = table(*(Default(f"build.{key}", *rest) for key, *rest in _ROWS))
