"""The seeded green, the eleventh: sown in spring, and wanted ready by its second summer."""

from datetime import timedelta

from greens.actions.seed import set_seed_mix
from greens.models import Establishment
from growin.agronomy.climate import Climate
from growin.management.demo.almanac import COLD_C, NEARLY, READY
from growin.management.demo.building import SOUND_LAYERS, Plan, build
from growin.management.demo.readings import frames, sound
from growin.management.demo.season import cut_between, keep_up, live
from growin.management.demo.teller import Teller, dated

HELD_MM = 5.5
PLAN = Plan(
    name="Eleventh",
    number=11,
    radii_m=(12.1, 11.4, 12.9, 14.2, 13.6, 12.2, 11.0, 10.8, 11.9, 13.1, 13.4, 12.6),
    distance_to_water_m=42,
    kind="seed",
    species="fescue/bent",
    days_of_works=48,
    layers=SOUND_LAYERS,
    establishment={"summer_height_mm": 4.5, "seed_rate_g_m2": 32},
)
MIX = (  # variety, share, purity, germination in per cent
    ("Slender creeping red fescue", 45, 98, 88),
    ("Chewings fescue", 35, 98, 90),
    ("Browntop bent", 20, 97, 91),
)
CERTIFICATE = ("variety", "share_percent", "purity_percent", "germination_percent")


def tell(teller: Teller, materials: dict, climate: Climate) -> Establishment:
    """From the digging to the last inspection, three days ago."""
    sown = teller.local(teller.almanac.seed_sown)
    rebuilt = dated(teller, sown, lambda: build(teller, PLAN, sown, materials))
    set_seed_mix(
        establishment=rebuilt,
        by=teller.head,
        lines=[dict(zip(CERTIFICATE, line, strict=True)) for line in MIX],
    )
    today = teller.almanac.today
    live(teller, rebuilt, today, opening_mm=HELD_MM)
    heights = lambda day: HELD_MM if (day - sown).days > 250 else 9.0  # noqa: E731
    cut_between(
        teller, rebuilt, sown + timedelta(days=60), today - timedelta(days=1), heights, climate.normal_c
    )
    keep_up(teller, rebuilt, sown + timedelta(days=330), today - timedelta(days=4), climate.normal_c)
    inspect(teller, rebuilt, climate)
    return rebuilt


def height_mm(sown, day) -> float:
    """The bench height of a day: high over the first winter, at opening height from then on."""
    return HELD_MM if (day - sown).days > 250 else 9.0


def inspect(teller: Teller, rebuilt: Establishment, climate: Climate) -> None:
    """Two inspections a fortnight apart; what the second leaves open is the story of the season."""
    today = teller.almanac.today
    for days in (24, 17, 10):
        on = today - timedelta(days=days)
        dated(teller, on, lambda on=on: teller.inspect(on, rebuilt, {"height": [5.5, 5.5, 5.45]}))
    last = today - timedelta(days=3)
    found = sound(last, True, HELD_MM) | open_points(teller, last)
    dated(teller, last, lambda: teller.inspect(last, rebuilt, found, note=note(teller, climate)))


def open_points(teller: Teller, last) -> dict:
    """April: the frames are not all thrown. May: winter has left a bare patch. Else nothing."""
    phase = teller.almanac.phase
    if phase == NEARLY:
        return {"cover": frames(last, 6, 0.99)}
    if phase == READY:
        return {"cover": frames(last, 10, 0.935), "bare_patch": [140]}
    return {}


def note(teller: Teller, climate: Climate) -> str:
    if climate.normal_c(teller.almanac.today) < COLD_C:
        return "The thermometer by the shed stands still; nobody can say how warm the week was."
    if teller.almanac.phase == NEARLY:
        return "Rain stopped us after six frames; the other four are still to be thrown."
    return "Winter left a patch on the left wing; overseeded." if teller.almanac.phase == READY else ""
