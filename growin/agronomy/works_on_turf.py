"""Entries of work on the sward: cutting, feeding, watering. Bounds refuse only the impossible."""

from growin.agronomy.fields import TEXT, YES_NO, Field
from growin.agronomy.work import ON_OFF, PLACE, Work, choice, mm, number

SURFACE = (
    Work(
        "cut",
        "Cut",
        "surface",
        (
            mm("height_mm", "Height of cut on the bench", 2, 40, 0.25, required=True),
            Field("direction", "Direction", TEXT),
            choice("boxes", "Boxes", **ON_OFF),
            number("clippings_ml_m2", "Clippings", "ml/m²", 0, 500, 5),
            Field("scalped", "Scalped anywhere", YES_NO),
        ),
        needs_turf=True,
        cautions=("machinery", "frozen_or_wet_turf"),
    ),
    Work(
        "roll",
        "Rolled",
        "surface",
        (
            number("passes", "Passes", "", 1, 12, whole=True),
            number("mass_kg", "Mass of the roller", "kg", 20, 2000, 10),
        ),
        needs_turf=True,
        cautions=("frozen_or_wet_turf", "machinery"),
    ),
    Work(
        "dressing",
        "Topdressed",
        "surface",
        (
            choice(
                "worked_in",
                "Worked in by",
                brush="brush",
                drag_mat="drag mat",
                lute="lute",
                water="water",
                left="left to settle",
            ),
            Field("joints_only", "Joints only", YES_NO),
        ),
        takes_product="sand",
        cautions=("sand_dust", "frozen_or_wet_turf", "lifting", "machinery"),
    ),
    Work(
        "brush",
        "Brushed",
        "surface",
        (
            choice("tool", "With", drag_brush="drag brush", drag_mat="drag mat", broom="broom"),
            Field("direction", "Direction", TEXT),
        ),
        cautions=("frozen_or_wet_turf",),
    ),
    Work(
        "aerate",
        "Aerated",
        "surface",
        (
            choice(
                "kind",
                "How",
                solid="solid tines",
                hollow="hollow tines",
                verticut="verticut",
                scarify="scarified",
                required=True,
            ),
            mm("tine_diameter_mm", "Tine or blade width", 0.5, 50),
            mm("spacing_mm", "Spacing", 5, 500, 5),
            mm("row_spacing_mm", "Spacing of the rows", 5, 500, 5),
            mm("depth_mm", "Depth", 0.5, 500, 5),
        ),
        cautions=("buried_services", "machinery"),
    ),
    Work(
        "mower_set",
        "Mower set",
        "surface",
        (
            Field("machine", "Machine", TEXT, required=True),
            mm("bench_height_mm", "Height on the bench", 2, 40, 0.25, required=True),
            mm("measured_height_mm", "Height measured on the green", 1, 60, 0.25),
            Field("sharpened", "Sharpened", YES_NO),
        ),
        cautions=("machinery",),
    ),
    Work("leaves", "Leaves cleared", "surface", cautions=("machinery",)),
    Work(
        "dew",
        "Dew removed",
        "surface",
        (choice("tool", "With", switch="switch", brush="brush", hose="hose or drag rope"),),
        cautions=("lone_work",),
    ),
)

GROWTH = (
    Work(
        "feed",
        "Fed",
        "growth",
        (
            choice("form", "As", foliar="liquid on the leaf", granular="granules", drench="drench"),
            Field("watered_in", "Watered in", YES_NO),
            number("water_l_ha", "Water", "l/ha", 0, 20000, 50),
            choice("purpose", "Purpose", nutrition="nutrition", starter="starter before turf or seed"),
        ),
        takes_product="feed",
        cautions=("fertiliser", "fertiliser_near_water", "frozen_or_wet_turf"),
    ),
    Work(
        "overseed",
        "Overseeded",
        "growth",
        (
            choice("method", "By", broadcast="broadcast", disc="disc seeder", dimple="dimple seeder"),
            mm("depth_mm", "Depth", 0, 40),
            PLACE,
        ),
        takes_product="seed",
        cautions=("machinery",),
    ),
)

WATER = (
    Work(
        "water",
        "Watered",
        "water",
        (mm("depth_mm", "Depth of water", 0.1, 100, 0.5), number("run_minutes", "Run", "min", 1, 1440)),
        cautions=("drought_rules",),
    ),
    Work(
        "hand_water",
        "Hand watered",
        "water",
        (mm("depth_mm", "Depth of water", 0.1, 50, 0.5), PLACE),
        cautions=("drought_rules", "lone_work"),
    ),
    Work(
        "wetting_agent",
        "Wetting agent",
        "water",
        (number("water_l_ha", "Water", "l/ha", 0, 20000, 50), Field("watered_in", "Watered in", YES_NO)),
        takes_product="wetting_agent",
        cautions=("product_label", "water_edge"),
    ),
    Work(
        "irrigation_check",
        "Irrigation checked",
        "water",
        (
            Field("live", "Water on and heads working", YES_NO),
            number("uniformity_percent", "Evenness, lowest quarter", "%", 0, 100),
            Field("hose_ready", "Hose at the green", YES_NO),
            Field("fault", "Fault found", TEXT),
        ),
    ),
    Work(
        "drain_check",
        "Drain outlet checked",
        "water",
        (
            Field("running", "Running", YES_NO),
            choice("water", "Water", clear="clear", cloudy="cloudy", none="none"),
            Field("outlet", "Outlet", TEXT),
        ),
        cautions=("water_edge", "lone_work"),
    ),
    Work(
        "water_analysis",
        "Water analysis",
        "water",
        (
            number("ph", "pH", "", 0, 14, 0.1),
            number("conductivity_ds_m", "Conductivity (EC)", "dS/m", 0, 60, 0.1),
            number("bicarbonate_mg_l", "Bicarbonate", "mg/l", 0, 5000, 10),
            Field("laboratory", "Laboratory", TEXT),
        ),
    ),
)
