"""The build as agronomy judges it, and as its page shows it."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from greens.choices import DrainKind, LayerKind
from greens.models import Drain, Establishment, Layer, Material
from greens.queries import record, settings
from growin.agronomy.build_facts import BuildFacts, DrainFacts, IrrigationFacts, MaterialFacts
from growin.agronomy.construction import NOT_KNOWN, OUT, WITHIN, RowJudgement, judge_build
from growin.agronomy.plain_words import amount, counted

FROM_THE_TOP = (LayerKind.ROOTZONE, LayerKind.BLINDING, LayerKind.GRAVEL, LayerKind.EXCAVATION)
LABORATORY = (
    "total_porosity_percent",
    "air_filled_percent",
    "capillary_percent",
    "ksat_mm_h",
    "organic_matter_percent",
)


@dataclass(frozen=True)
class LayerRow:
    """One layer of the page's table: mean and spread of its readings in mm, none when not read."""

    kind: LayerKind
    layer: Layer | None

    @property
    def words(self) -> str:
        return self.kind.label

    @property
    def depths_mm(self) -> list[float]:
        return self.layer.depths_mm if self.layer else []

    @property
    def mean_mm(self) -> float | None:
        return sum(self.depths_mm) / len(self.depths_mm) if self.depths_mm else None

    @property
    def span_words(self) -> str:
        return span_words(self.depths_mm)


@dataclass(frozen=True)
class Judged:
    """The rows of a build by what they came to."""

    rows: tuple[RowJudgement, ...]

    def those(self, state: str) -> list[RowJudgement]:
        return [row for row in self.rows if row.state == state]

    @property
    def out(self) -> list[RowJudgement]:
        return self.those(OUT)

    @property
    def not_known(self) -> list[RowJudgement]:
        return self.those(NOT_KNOWN)

    @property
    def within(self) -> list[RowJudgement]:
        return self.those(WITHIN)


def judged(establishment: Establishment, on: date) -> Judged:
    """The build held against the recommendation, with the limits in force on that day. One query,
    where ``establishment`` came from :func:`greens.queries.record.with_build`."""
    green = establishment.green
    return Judged(judge_build(facts(establishment), settings.in_force(green.club, on, green)))


def shown(establishment: Establishment, on: date) -> dict:
    """What the record page shows of a build."""
    layers, found = layer_rows(establishment), judged(establishment, on)
    return {
        "layers": layers,
        "judged": found,
        "section_words": section_words(layers, found),
        "drains": sorted(establishment.drains.all(), key=lambda drain: drain.kind, reverse=True),
        "defects": record.open_defects_first(establishment),
        "is_levelled": any(row.depths_mm for row in layers),
        "today": on,
    }


def facts(establishment: Establishment) -> BuildFacts:
    """The record of a build as plain data."""
    layers = {layer.kind: layer for layer in establishment.layers.all()}
    blinding = layers.get(LayerKind.BLINDING)
    return BuildFacts(
        depths_mm={str(kind): tuple(layer.depths_mm) for kind, layer in layers.items()},
        has_blinding=bool(blinding and (blinding.depths_mm or blinding.material)),
        drains=drain_facts({drain.kind: drain for drain in establishment.drains.all()}),
        rootzone=material_facts(layers, LayerKind.ROOTZONE),
        gravel=material_facts(layers, LayerKind.GRAVEL),
        blinding=material_facts(layers, LayerKind.BLINDING),
        irrigation=irrigation_facts(getattr(establishment, "irrigation", None)),
        turf_soil=turf_soil(establishment),
        established_on=establishment.established_on,
    )


def drain_facts(drains: dict[str, Drain]) -> DrainFacts:
    """Laterals give the spacing; of trenches, beds and falls the least of mains and laterals counts."""
    main, lateral = drains.get(DrainKind.MAIN, Drain()), drains.get(DrainKind.LATERAL, Drain())
    falls = [drain.fall_percent for drain in (main, lateral) if drain.fall_percent is not None]
    return DrainFacts(
        trench_width_mm=least(lateral.trench_width_mm, main.trench_width_mm),
        trench_depth_mm=least(lateral.trench_depth_mm, main.trench_depth_mm),
        bedding_mm=least(lateral.bedding_mm, main.bedding_mm),
        lateral_spacing_m=plain(lateral.spacing_m),
        reaches_edge=lateral.reaches_edge,
        fall_percent=plain(min(falls, default=None)),
        main_mm=main.pipe_mm,
        lateral_mm=lateral.pipe_mm,
        perforated=all_of(main.is_perforated, lateral.is_perforated),
    )


def material_facts(layers: dict[str, Layer], kind: LayerKind) -> MaterialFacts:
    layer = layers.get(kind)
    return laboratory(layer.material if layer else None)


def laboratory(material: Material | None) -> MaterialFacts:
    if material is None:
        return MaterialFacts()
    found = {name: plain(getattr(material, name)) for name in LABORATORY}
    return MaterialFacts(grading=tuple((sieve, passing) for sieve, passing in material.grading), **found)


def irrigation_facts(row) -> IrrigationFacts:
    return IrrigationFacts(row.live_on, row.audited_on, row.hose_ready_on) if row else IrrigationFacts()


def turf_soil(establishment: Establishment) -> MaterialFacts | None:
    """None where no soil came with the grass: seed, and turf washed bare."""
    if not establishment.is_turf or establishment.kind == "turf_washed":
        return None
    turf = getattr(establishment, "turf", None)
    return laboratory(turf.soil if turf else None)


def layer_rows(establishment: Establishment) -> list[LayerRow]:
    """All four layers, from the top down, also those not recorded yet."""
    layers = {layer.kind: layer for layer in establishment.layers.all()}
    return [LayerRow(kind, layers.get(kind)) for kind in FROM_THE_TOP]


def section_words(rows: Sequence[LayerRow], judged: Judged) -> str:
    """What the drawing of the section shows, for those who cannot see it."""
    depths = [f"{row.words.lower()} {row.span_words}" for row in rows if row.depths_mm]
    if not depths:
        return "Section of the build: no depths are recorded yet."
    at_depths = [row.words.lower() for row in judged.out if row.depth_to_mm is not None]
    out = f" Out: {', '.join(at_depths)}." if at_depths else " Nothing of it is out."
    return f"Section of the build, from the top: {', '.join(depths)}.{out}"


def span_words(depths_mm: Sequence[float]) -> str:
    """ "298 mm on average (262 to 310 mm at 12 places)"."""
    if not depths_mm:
        return "not recorded"
    mean = amount(sum(depths_mm) / len(depths_mm), "mm", 0)
    if len(depths_mm) == 1:
        return f"{mean} at 1 place"
    span = f"{amount(min(depths_mm))} to {amount(max(depths_mm), 'mm')}"
    return f"{mean} on average ({span} at {counted(len(depths_mm), 'places')})"


def least(*values):
    """The least that is recorded; none when nothing is."""
    return min((value for value in values if value is not None), default=None)


def all_of(*answers: bool | None) -> bool | None:
    """Yes when all that is recorded is yes; none when nothing is."""
    recorded = [answer for answer in answers if answer is not None]
    return all(recorded) if recorded else None


def plain(value) -> float | None:
    return None if value is None else float(value)


def turf_mm(establishment: Establishment) -> float | None:
    """Thickness the turf was cut at; none for seed or where it is not recorded."""
    turf = getattr(establishment, "turf", None)
    return plain(turf.cut_thickness_mm) if turf and establishment.is_turf else None
