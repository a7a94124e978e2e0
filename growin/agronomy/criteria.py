"""The criteria for opening: what each asks, of which greens, and why.

Default thresholds stand in :mod:`growin.agronomy.criteria_defaults`; judging evidence by
these criteria is :mod:`growin.agronomy.verdict`. A *bar* must be met; a *watch* is shown
and never blocks. The order is the order of weight.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from growin.agronomy.criteria_defaults import DEFAULTS, LOOSER, is_looser
from growin.agronomy.defaults import COMMON_PRACTICE, OUR_JUDGEMENT, PUBLISHED
from growin.agronomy.fields import as_number
from growin.agronomy.impossible import require_range
from growin.agronomy.plain_words import amount
from growin.agronomy.rules import BoundRule, CountRule, LargestRule, RangeRule, ShownRule, YesRule

__all__ = [
    "BAR",
    "CRITERIA",
    "DEFAULTS",
    "LOOSER",
    "WATCH",
    "Criterion",
    "Part",
    "check_settings",
    "criteria_for",
    "is_looser",
]

BAR, WATCH = "bar", "watch"
TURF, SEED, BOTH = "turf", "seed", "both"
HELD, GROWTH = "held", "growth"

Settings = Mapping[str, float]
Rule = CountRule | LargestRule | BoundRule | YesRule | RangeRule | ShownRule


@dataclass(frozen=True)
class Part:
    """One measure of a criterion and the rule that the settings make for it.

    ``same_protocol`` pairs a protocol field with the only value the threshold speaks of.
    """

    measure: str
    rule: Callable[[Settings], Rule]
    applies: str = BOTH
    same_protocol: tuple[str, float, str] | None = None


@dataclass(frozen=True)
class Criterion:
    """One criterion; ``also`` names a judgement that is no reading ("held", "growth")."""

    key: str
    words: str
    why: str
    parts: tuple[Part, ...] = ()
    kind: str = BAR
    applies: str = BOTH
    also: str = ""
    mark: str = OUR_JUDGEMENT
    source: str = ""

    def parts_for(self, from_seed: bool) -> tuple[Part, ...]:
        """The parts that concern a green from seed, or from turf."""
        return tuple(one for one in self.parts if concerns(one.applies, from_seed))


def concerns(applies: str, from_seed: bool) -> bool:
    """Whether "turf", "seed" or "both" takes in a green from seed, or from turf."""
    return applies in (BOTH, SEED if from_seed else TURF)


def _whole(settings: Settings, key: str) -> int:
    return int(settings[f"criterion.{key}"])


def _cores(group: str, below: str) -> Callable[[Settings], CountRule]:
    def rule(settings: Settings) -> CountRule:
        depth_mm = settings[f"criterion.{group}.depth_mm"]
        return CountRule(
            _whole(settings, f"{group}.cores_at_least"),
            _whole(settings, f"{group}.cores_of"),
            f"White roots {amount(depth_mm, 'mm')} below the {below} in",
            "cores",
            at_least=depth_mm,
        )

    return rule


def _count(at_least: str, of: str, subject: str, places: str) -> Callable[[Settings], CountRule]:
    return lambda settings: CountRule(_whole(settings, at_least), _whole(settings, of), subject, places)


def _largest(
    limit: str, of: str | None, subject: str, places: str, unit="mm"
) -> Callable[[Settings], LargestRule]:
    def rule(settings: Settings) -> LargestRule:
        count = _whole(settings, of) if of else 1
        return LargestRule(settings[f"criterion.{limit}"], count, subject, places, unit)

    return rule


def _yes(yes_words: str, no_words: str, of: str | None = None, places: str = "checks", wanted: bool = True):
    return lambda settings: YesRule(yes_words, no_words, wanted, _whole(settings, of) if of else 1, places)


def _range(low: str | None, high: str | None, of: str | None, subject: str, places: str, unit: str):
    def rule(settings: Settings) -> RangeRule:
        least, most = (settings[f"criterion.{key}"] if key else None for key in (low, high))
        count = _whole(settings, of) if of else 1
        return RangeRule(least, most, count, subject, places, unit, settings["criterion.watch.confidence"])

    return rule


def _cover(settings: Settings) -> BoundRule:
    return BoundRule(
        settings["criterion.cover.share_percent"],
        settings["criterion.cover.lower_percent"],
        _whole(settings, "cover.frames_of"),
        _whole(settings, "cover.points_of"),
        settings["criterion.cover.confidence"],
    )


_HAMMER = ("hammer_kg", 0.5, "The figures are for the 0.5 kg hammer.")
_ROOTING = (
    Criterion(
        "rooting_turf",
        "Rooting",
        "Turf that has not rooted through the face tears at joints and holes under play.",
        (
            Part(
                "hand_pull",
                _count(
                    "rooting_turf.points_at_least",
                    "rooting_turf.points_of",
                    "Turf holds pull and lift at",
                    "points",
                ),
            ),
            Part("rooting_depth", _cores("rooting_turf", "turf/rootzone face")),
        ),
        applies=TURF,
    ),
    Criterion(
        "rooting_seed",
        "Rooting",
        "Seedlings with short roots wilt and lift under feet and wheels.",
        (Part("rooting_depth", _cores("rooting_seed", "surface")),),
        applies=SEED,
    ),
)
_SURFACE = (
    Criterion(
        "holes",
        "Holes and ball drops",
        "Without a thin mat ball marks explode and hole edges collapse.",
        (
            Part("hole", _count("holes.hold_of", "holes.hold_of", "Edge and liner hold in", "test holes")),
            Part(
                "drop",
                _count(
                    "holes.drops_at_least",
                    "holes.drops_of",
                    "The ball dents and the dent repairs flat in",
                    "ball drops",
                ),
            ),
            Part(
                "hole_positions",
                _range("holes.positions_at_least", None, None, "Usable hole positions:", "walks", ""),
            ),
        ),
        source="USGA on ball marks and hole edges of new greens",
    ),
    Criterion(
        "joints",
        "Joints",
        "Open joints dry out and catch the ball; proud ones are scalped. Lines may still show.",
        (
            Part("joint_gap", _largest("joints.open_mm", "joints.places_of", "Joints open", "joint places")),
            Part(
                "joint_proud", _largest("joints.proud_mm", "joints.places_of", "Joints proud", "joint places")
            ),
        ),
        applies=TURF,
    ),
    Criterion(
        "cover",
        "Cover",
        "Bare ground wears, and annual meadow-grass (Poa) fills it first.",
        (
            Part("cover", _cover),
            Part("bare_patch", _largest("cover.bare_patch_mm", None, "Widest bare patch", "walks")),
        ),
        applies=SEED,
    ),
    Criterion(
        "levels",
        "Levels",
        "A lip or a dip turns the ball and is scalped as the height comes down.",
        (
            Part(
                "lip",
                _largest("levels.lip_mm", "levels.lip_placings_of", "Lip under the 0.5 m edge", "placings"),
                TURF,
            ),
            Part(
                "dip",
                _largest("levels.dip_mm", "levels.dip_placings_of", "Dip under the 1 m edge", "placings"),
            ),
            Part(
                "ball_roll",
                _yes("A rolled ball does not jump", "A rolled ball jumps", "levels.rolls_of", "rolls"),
            ),
        ),
    ),
)
_STATE = (
    Criterion(
        "height",
        "Height",
        "A green that has not stood its opening height for two weeks shows its weak spots in play.",
        (Part("scalping", _yes("Scalped", "Not scalped", wanted=False)),),
        also=HELD,
    ),
    Criterion("growth", "Growth", "A green that does not grow does not heal.", also=GROWTH),
    Criterion(
        "water",
        "Water",
        "Standing water drowns young roots, and without irrigation or drains nothing else holds.",
        (
            Part(
                "standing_water_free",
                _yes(
                    "No standing water 30 minutes after irrigation",
                    "Water stands 30 minutes after irrigation",
                ),
            ),
            Part("irrigation_live", _yes("Irrigation live", "Irrigation not live")),
            Part("drains_running", _yes("Drains running", "Drains not running")),
        ),
    ),
    Criterion(
        "disease",
        "Disease and damage",
        "Scars that are active when play starts do not close under it.",
        (
            Part(
                "disease_share",
                _largest("disease.share_percent", None, "Active disease or damage", "walks", "% of the area"),
            ),
        ),
    ),
    Criterion(
        "surrounds",
        "Surrounds and access",
        "People must get on and off without tearing turf, and the green must be able to close again.",
        (
            Part(
                "routes_rooted",
                _yes("Walk-on routes rooted", "A walk-on route not rooted", "surrounds.routes_of", "routes"),
            ),
            Part("temporary_green_kept", _yes("Temporary green kept", "No temporary green to close to")),
        ),
    ),
)
_WATCHED = (
    Criterion(
        "mat",
        "Thin mat",
        "A thin mat worked into sand carries the ball and the hole edge.",
        (Part("mat_depth", _range("mat.low_mm", "mat.high_mm", "profile.cores_of", "Mat", "cores", "mm")),),
        WATCH,
        SEED,
    ),
    Criterion(
        "thatch",
        "Thatch",
        "A soft layer under the turf holds water and stops roots.",
        (
            Part("soft_layer_free", _yes("No soft layer", "A soft layer", "profile.cores_of", "cores")),
            Part("thatch_depth", _range(None, "thatch.high_mm", "profile.cores_of", "Thatch", "cores", "mm")),
        ),
        WATCH,
        TURF,
    ),
    Criterion(
        "infiltration",
        "Infiltration",
        "Slow water says a layer or a seal at the surface.",
        (
            Part(
                "infiltration",
                _range(
                    "infiltration.low_mm_h", None, "infiltration.places_of", "Infiltration", "places", "mm/h"
                ),
            ),
        ),
        WATCH,
    ),
    Criterion(
        "hardness",
        "Hardness",
        "Too soft marks, too hard bruises.",
        (
            Part(
                "hardness",
                _range(
                    "hardness.low_gravities",
                    "hardness.high_gravities",
                    "hardness.places_of",
                    "Hardness",
                    "places",
                    "gravities",
                ),
                same_protocol=_HAMMER,
            ),
        ),
        WATCH,
        mark=PUBLISHED,
        source="STRI, 0.5 kg hammer",
    ),
    Criterion(
        "moisture",
        "Moisture",
        "Young turf dries first; a wet surface marks.",
        (
            Part(
                "moisture",
                _range(
                    "moisture.low_percent",
                    "moisture.high_percent",
                    "moisture.places_of",
                    "Moisture",
                    "places",
                    "%",
                ),
            ),
        ),
        WATCH,
        mark=COMMON_PRACTICE,
    ),
    Criterion(
        "speed",
        "Green speed",
        "Speed follows from height, dressing and rolling; it is no reason to open or to wait.",
        (Part("green_speed", lambda settings: ShownRule("green_speed", _whole(settings, "speed.spots_of"))),),
        WATCH,
    ),
)

CRITERIA: Mapping[str, Criterion] = {one.key: one for one in (*_ROOTING, *_SURFACE, *_STATE, *_WATCHED)}


def criteria_for(from_seed: bool) -> tuple[Criterion, ...]:
    """The criteria of a green from seed, or from turf, in order of weight."""
    return tuple(one for one in CRITERIA.values() if concerns(one.applies, from_seed))


def check_settings(settings: Settings) -> None:
    """Refuse thresholds that contradict each other, such as 6 of 5 cores, and parts of a count.

    Raises
    ------
    ImpossibleValue
        With the value and what would be right.
    """
    for key in (one for one in DEFAULTS if one.endswith(("_of", "_at_least", "days"))):
        as_number(DEFAULTS[key].words, settings[key], whole=True)
    for criterion in CRITERIA.values():
        for part in criterion.parts:
            part.rule(settings)
    cuts = settings["criterion.growth.cuts_of"]
    require_range("cuts with clippings wanted", settings["criterion.growth.cuts_at_least"], 1, cuts)
