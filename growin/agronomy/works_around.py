"""Entries around the sward: repair, health, play, walks and the building itself."""

from dataclasses import replace

from growin.agronomy.fields import DATE, TEXT, TIME, YES_NO, Field
from growin.agronomy.work import ON_OFF, PLACE, SEVERITY, Work, choice, mm, number

REPAIR = (
    Work(
        "settle",
        "Settled and re-levelled",
        "repair",
        (
            PLACE,
            mm("change_mm", "Raised (or lowered, with a minus)", -300, 300),
            Field("lifted", "Turf lifted", YES_NO),
        ),
        cautions=("lifting", "machinery"),
    ),
    Work(
        "joint_repair",
        "Joints repaired",
        "repair",
        (
            choice(
                "how",
                "How",
                sand="sand brushed in",
                tucked="tucked up",
                pared="proud edge levelled",
                replaced="turf replaced",
            ),
            mm("widest_mm", "Widest joint found", 0, 100),
            PLACE,
        ),
        cautions=("sand_dust", "lifting"),
    ),
    Work(
        "pitch_marks",
        "Pitch marks repaired",
        "repair",
        (number("count", "How many", "", 0, 5000, 5, whole=True),),
        cautions=("golf_balls",),
    ),
    Work(
        "defect",
        "Defect for the contractor",
        "repair",
        (
            Field("what", "What is wrong", TEXT, required=True),
            replace(PLACE, wanted=True),
            Field("due_on", "To be put right by", DATE),
            Field("maintenance_ends_on", "End of the maintenance period", DATE),
            Field("settled", "Put right", YES_NO),
        ),
    ),
)

WATCHED = {
    "microdochium": "microdochium patch",
    "dollar_spot": "dollar spot",
    "anthracnose": "anthracnose",
    "take_all": "take-all patch",
    "fairy_ring": "fairy ring",
    "red_thread": "red thread",
    "damping_off": "damping off",
    "moss": "moss",
    "algae": "algae",
    "weeds": "weeds",
    "poa": "annual meadow-grass (Poa)",
    "leatherjackets": "leatherjackets",
    "chafers": "chafer grubs",
    "worms": "worm casts",
    "dry_patch": "dry patch",
    "black_layer": "black layer",
    "other": "something else",
}

HEALTH = (
    Work(
        "watch",
        "Disease, pest, moss or worms seen",
        "health",
        (
            choice("what", "What", **WATCHED, required=True),
            SEVERITY,
            number("share_percent", "Share of the green", "%", 0, 100),
            PLACE,
        ),
    ),
    Work(
        "spray",
        "Spray record",
        "health",
        (
            choice(
                "purpose",
                "Purpose",
                disease="disease",
                pest="pest",
                weeds="weeds",
                moss="moss (product authorised for moss)",
                growth="growth regulation",
                required=True,
            ),
            Field("target", "Target", TEXT, required=True),
            Field("registration_number", "Registration number on the label", TEXT, wanted=True),
            Field("operator", "Operator", TEXT, required=True),
            Field("certificate", "Certificate or licence", TEXT, wanted=True),
            number("water_l_ha", "Water", "l/ha", 0, 20000, 50, wanted=True),
            Field("start", "Start", TIME, wanted=True),
            Field("end", "End", TIME, wanted=True),
            number("wind_m_s", "Wind", "m/s", 0, 60, 0.5, wanted=True),
            Field("wind_from", "Wind from", TEXT),
            number("re_entry_h", "Re-entry after", "h", 0, 720, wanted=True),
        ),
        takes_product="spray",
        cautions=("spray", "water_edge", "lone_work"),
    ),
    Work(
        "animal_damage",
        "Bird or animal damage",
        "health",
        (
            choice(
                "by",
                "By",
                birds="birds",
                badger="badger",
                deer="deer",
                rabbit="rabbit or hare",
                fox="fox",
                dog="dog",
                other="other",
            ),
            SEVERITY,
            number("share_percent", "Share of the green", "%", 0, 100),
            PLACE,
        ),
    ),
)

PLAY = (
    Work(
        "covers",
        "Covers",
        "play",
        (choice("state", "Covers", **ON_OFF, required=True),),
        cautions=("lifting",),
    ),
    Work(
        "fence",
        "Ropes or fence",
        "play",
        (
            choice("state", "Ropes or fence", up="put up", moved="moved", down="taken down", required=True),
            PLACE,
        ),
        cautions=("buried_services",),
    ),
    Work(
        "temporary_green",
        "Temporary green",
        "play",
        (choice("state", "Temporary green", in_play="in play", rested="rested", required=True),),
        cautions=("golf_balls",),
    ),
    Work(
        "hole_changed",
        "Hole changed",
        "play",
        (PLACE, Field("edge_held", "Edge held", YES_NO)),
        cautions=("golf_balls",),
    ),
)

LOOK = (
    Work("walk", "Walked it, all well", "look", answer_only=True),
    Work(
        "not_done",
        "Not done: weather",
        "look",
        (
            choice(
                "reason",
                "Because of",
                frost="frost",
                wet="wet",
                wind="wind",
                heat="heat or drought",
                snow="snow",
                other="something else",
            ),
            Field("work", "What was not done", TEXT),
        ),
        answer_only=True,
    ),
    Work("photograph", "Fixed-point photograph", "look", (Field("point", "Fixed point", TEXT),)),
    Work("note", "Note", "look", (Field("text", "Note", TEXT, required=True),)),
)

BUILD = (
    Work(
        "build_work",
        "Construction work",
        "build",
        (
            choice(
                "stage",
                "Stage",
                excavation="excavation",
                drains="drains",
                gravel="gravel",
                blinding="blinding layer",
                rootzone="rootzone",
                firming="firming and final levels",
                irrigation="irrigation",
                surrounds="surrounds",
                turfing="turfing",
                sowing="sowing",
                other="something else",
                required=True,
            ),
            Field("what", "What was done", TEXT),
        ),
        cautions=("construction_site", "buried_services", "lifting", "machinery"),
    ),
)
