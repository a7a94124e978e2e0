"""Weather of the story: normals, noise that lasts for days, a mild last week, and a broken thermometer."""

from datetime import date, timedelta
from random import Random

from greens.models import WeatherDay
from growin.agronomy.climate import Climate
from growin.management.demo.almanac import COLD_C

LASTS, NOISE_C = 0.72, 1.7
DAYS_BROKEN = 8
MILD_C = 9.0


def draw(salt: str, day: date) -> Random:
    """Chance that falls the same way for a day however often the story is told."""
    return Random(f"{salt} {day.isoformat()}")


def noise_c(day: date) -> float:
    """Departure from the normal, °C; yesterday's lingers."""
    past = (day - timedelta(days=back) for back in range(12))
    return sum(LASTS**back * draw("warmth", one).gauss(0, NOISE_C) for back, one in enumerate(past))


def days_of(club, climate: Climate, first: date, today: date) -> list[WeatherDay]:
    """Every day from ``first`` to yesterday; in the cold season the thermometer stands still at the end."""
    is_cold = climate.normal_c(today) < COLD_C
    last = today - timedelta(days=DAYS_BROKEN if is_cold else 1)
    days = [first + timedelta(days=number) for number in range((last - first).days + 1)]
    means = {day: climate.normal_c(day) + noise_c(day) for day in days}
    if not is_cold:
        warm_the_end(means, today)
    return [weather_day(club, day, mean) for day, mean in means.items()]


def warm_the_end(means: dict[date, float], today: date) -> None:
    """Leave no cold day before today, so that each mean of seven days reads as growing weather."""
    for day in means:
        if (today - day).days <= 52:
            means[day] = max(means[day], MILD_C + draw("mild", day).uniform(0, 1.5))


def weather_day(club, day: date, mean: float) -> WeatherDay:
    chance = draw("sky", day)
    swing = chance.uniform(2.0, 5.5)
    wet = chance.random() < 0.42
    return WeatherDay(
        club=club,
        on=day,
        min_c=round(mean - swing, 1),
        max_c=round(mean + swing, 1),
        mean_c=round(mean, 1),
        rain_mm=round(chance.expovariate(1 / 5), 1) if wet else 0,
        source="station by the shed",
    )
