"""Sets of readings of the story: a full inspection, and what a green shows on its way there."""

from datetime import date

from growin.management.demo.weather import draw

COVER_POINTS = 25


def numbers(day: date, measure: str, count: int, mean: float, spread: float, low: float = 0) -> list[float]:
    chance = draw(measure, day)
    return [max(low, round(chance.gauss(mean, spread))) for _ in range(count)]


def sound(day: date, from_seed: bool, height_mm: float) -> dict[str, list]:
    """Every measure of a green that is plainly ready, as an inspection finds it."""
    both = {
        "rooting_depth": numbers(day, "roots", 5, 112 if from_seed else 84, 7),
        "hole": [True] * 3,
        "drop": [True] * 8 + [draw("drop", day).random() < 0.7],
        "hole_positions": [7],
        "dip": numbers(day, "dip", 12, 1.6, 0.7),
        "ball_roll": [True] * 6,
        "scalping": [False],
        "height": [round(height_mm + step, 2) for step in (-0.05, 0.0, 0.05)],
        "standing_water_free": [True],
        "irrigation_live": [True],
        "drains_running": [True],
        "disease_share": [0.2],
        "routes_rooted": [True] * 2,
        "temporary_green_kept": [True],
    }
    return both | (sound_seed(day) if from_seed else sound_turf(day))


def sound_seed(day: date) -> dict[str, list]:
    return {
        "cover": frames(day, 10, 0.992),
        "bare_patch": [12],
        "mat_depth": numbers(day, "mat", 5, 4.4, 0.6),
    }


def sound_turf(day: date) -> dict[str, list]:
    return {
        "hand_pull": [True] * 10,
        "joint_gap": numbers(day, "gap", 20, 1.0, 0.6),
        "joint_proud": [0] * 20,
        "lip": numbers(day, "lip", 20, 0.6, 0.5),
        "thatch_depth": numbers(day, "thatch", 5, 8.5, 1),
        "soft_layer_free": [True] * 5,
    }


def frames(day: date, count: int, share: float) -> list[dict]:
    chance = draw("cover", day)
    hits = (sum(chance.random() < share for _ in range(COVER_POINTS)) for _ in range(count))
    return [{"hits": hit, "points": COVER_POINTS} for hit in hits]


def rooting(day: date, depth_mm: float, holding: int) -> dict[str, list]:
    """Roots and pulls of turf on its way."""
    pulls = [number < holding for number in range(10)]
    return {"rooting_depth": numbers(day, "roots", 5, depth_mm, 6, low=5), "hand_pull": pulls}
