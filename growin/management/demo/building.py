"""Digging out and building up the three greens, each with its own faults and merits."""

from dataclasses import dataclass, field
from datetime import date, timedelta

from greens.actions.area import measure_area
from greens.actions.build import set_drain, set_layer
from greens.actions.defect import note_defect, put_right
from greens.actions.establishment import start_establishment
from greens.actions.green import create_green
from greens.actions.irrigation import set_irrigation
from greens.choices import AreaMethod, DrainKind, LayerKind, MaterialKind
from greens.models import Establishment, Green
from growin.management.demo.teller import Teller
from growin.management.demo.weather import draw

MADE_OF = {
    LayerKind.GRAVEL: MaterialKind.GRAVEL,
    LayerKind.BLINDING: MaterialKind.BLINDING,
    LayerKind.ROOTZONE: MaterialKind.ROOTZONE,
}


@dataclass(frozen=True)
class Plan:
    """How one green was built; ``layers`` are mean depth and spread of its level readings, mm."""

    name: str
    number: int
    radii_m: tuple[float, ...]
    distance_to_water_m: float
    kind: str
    species: str
    days_of_works: int
    layers: dict = field(default_factory=dict)
    fall_percent: float = 1.0
    establishment: dict = field(default_factory=dict)


SOUND_LAYERS = {
    LayerKind.EXCAVATION: (462, 6),
    LayerKind.GRAVEL: (106, 4),
    LayerKind.BLINDING: (56, 3),
    LayerKind.ROOTZONE: (302, 6),
}


def build(teller: Teller, plan: Plan, established_on: date, materials: dict) -> Establishment:
    """The record of a green from the first spade to the day of laying or sowing."""
    green = create_green(
        club=teller.club,
        by=teller.head,
        name=plan.name,
        position=plan.number,
        distance_to_water_m=plan.distance_to_water_m,
    )
    started = established_on - timedelta(days=plan.days_of_works)
    measure_area(
        green=green, by=teller.head, method=AreaMethod.RADII, values_m=plan.radii_m, measured_on=started
    )
    green.refresh_from_db()
    rebuilt = start_establishment(
        green=green,
        by=teller.head,
        kind=plan.kind,
        species=plan.species,
        works_started_on=started,
        established_on=established_on,
        maintenance_ends_on=established_on + timedelta(days=365),
        **plan.establishment,
    )
    lay_the_layers(teller, plan, rebuilt, materials)
    lay_the_pipes(teller, plan, rebuilt)
    log_the_works(teller, green, started, established_on)
    return rebuilt


def lay_the_layers(teller: Teller, plan: Plan, rebuilt: Establishment, materials: dict) -> None:
    for number, (kind, (mean, spread)) in enumerate(plan.layers.items(), start=1):
        on = rebuilt.works_started_on + timedelta(days=5 * number)
        chance = draw(f"{plan.name} {kind}", on)
        set_layer(
            establishment=rebuilt,
            by=teller.head,
            kind=kind,
            depths_mm=[round(chance.gauss(mean, spread)) for _ in range(12)],
            material=materials.get(MADE_OF.get(kind)),
            levelled_on=on,
            placing="in two lifts, moist, firmed by treading" if kind == LayerKind.ROOTZONE else "",
        )


def lay_the_pipes(teller: Teller, plan: Plan, rebuilt: Establishment) -> None:
    trench = {"trench_width_mm": 160, "trench_depth_mm": 220, "bedding_mm": 25, "is_perforated": True}
    common = {"establishment": rebuilt, "by": teller.head, "reaches_edge": True, **trench}
    set_drain(kind=DrainKind.MAIN, pipe_mm=110, fall_percent=plan.fall_percent + 0.3, **common)
    set_drain(kind=DrainKind.LATERAL, pipe_mm=80, spacing_m=4.5, fall_percent=plan.fall_percent, **common)
    live = rebuilt.established_on - timedelta(days=3)
    set_irrigation(
        establishment=rebuilt, by=teller.head, live_on=live, audited_on=live, heads=6, hose_ready_on=live
    )


def log_the_works(teller: Teller, green: Green, started: date, established_on: date) -> None:
    stages = ("excavation", "drains", "gravel", "blinding", "rootzone", "firming")
    pause = max((established_on - started).days // len(stages), 1)
    for number, stage in enumerate(stages):
        teller.work("build_work", started + timedelta(days=number * pause), [green], details={"stage": stage})
    grams = round(15 * green.area_m2)
    starter = [(teller.labels["starter"], grams)]
    teller.work("feed", established_on, [green], products=starter, details={"purpose": "starter"})


def note_snags(teller: Teller, rebuilt: Establishment, today: date) -> None:
    """Two defects: one put right, one still owed by the contractor."""
    found = rebuilt.established_on + timedelta(days=9)
    if found + timedelta(days=30) > today:
        return
    settled = {"what": "Rootzone has settled over the main drain, 15 mm", "place": "front left"}
    snag = note_defect(
        establishment=rebuilt, by=teller.head, found_on=found, due_on=found + timedelta(days=28), **settled
    )
    put_right(defect=snag, by=teller.head, on=found + timedelta(days=20))
    note_defect(
        establishment=rebuilt, by=teller.head, found_on=found, due_on=rebuilt.maintenance_ends_on,
        what="Drain outlet stands 40 mm too low in the ditch", place="outlet behind the green",
    )  # fmt: skip
