"""Weather for the other greens: spells and steps instead of autocorrelated noise about a smooth year."""

from datetime import date, timedelta

import numpy as np

from growin.agronomy.climate import Climate

DAY = timedelta(days=1)


def true_weather(normals, start: date, days: int, rng) -> np.ndarray:
    """Daily means: a stepped year softened over a month, spells of random length, and every day's own."""
    months = np.array([normals[(start + n * DAY).month - 1] for n in range(-15, days + 15)])
    soft = np.convolve(months, np.ones(31) / 31, "valid")[:days]
    spells = np.empty(0)
    while len(spells) < days:
        spells = np.append(spells, np.full(1 + rng.geometric(1 / 6), rng.normal(0, 2.3)))
    seasons = np.repeat(rng.normal(0, 1.0, days // 30 + 1), 30)[:days]
    return soft + spells[:days] + seasons + rng.normal(0, 1.6, days)


def known_climate(normals, weather, first: date, laid: date, rng) -> Climate:
    """What the club knows: normals a little off, and nothing, this season, or its years, with gaps."""
    said = tuple(float(one + rng.normal(0, 0.4)) for one in np.array(normals) + rng.normal(0, 0.5))
    since = {"none": None, "season": laid, "years": first}[rng.choice(("none", "season", "years"))]
    if since is None:
        return Climate(said)
    days = [n for n in range(len(weather)) if first + n * DAY >= since and rng.random() > 0.07]
    return Climate(said, daily={first + n * DAY: round(float(weather[n]), 1) for n in days})
