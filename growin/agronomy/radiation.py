"""Sun and sky: radiation above the air, at the ground and kept by it; day length.

Nomenclature: radiation in MJ/m² a day, sunshine in h, latitude in degrees with the south
negative, day of the year from 1. Every function takes a number or a series.

Symbols and constants are those of Allen, Pereira, Raes & Smith, 1998, Crop
evapotranspiration, FAO Irrigation and Drainage Paper 56 ("FAO 56" below).
"""

from typing import NamedTuple

import numpy as np

from growin.agronomy.defaults import OUR_JUDGEMENT, PUBLISHED, Default, table
from growin.agronomy.growth import Series, require_extremes
from growin.agronomy.impossible import ImpossibleValue, require_range

_FAO = "FAO Irrigation and Drainage Paper 56"
DEFAULTS = table(
    Default("sun.albedo", 0.23, "", "sunshine thrown back by grass", 0.1, 0.35, PUBLISHED, f"{_FAO}, Eq. 38"),
    Default(
        "sun.krs_inland",
        0.16,
        "",
        "sunshine from the daily range, inland",
        0.1,
        0.25,
        PUBLISHED,
        f"{_FAO}, Eq. 50",
    ),
    Default(
        "sun.krs_coast",
        0.19,
        "",
        "sunshine from the daily range, coast",
        0.1,
        0.25,
        PUBLISHED,
        f"{_FAO}, Eq. 50",
    ),
    Default(
        "sun.coast", 0, "", "the sea in the weather, 0 inland to 1 on the coast", 0, 1, OUR_JUDGEMENT,
        "between the two constants of FAO 56, Eq. 50",
    ),
)  # fmt: skip
ALBEDO = DEFAULTS["sun.albedo"].value

SOLAR_CONSTANT_MJ_M2_MIN = 0.0820  # FAO 56, Eq. 21
STEFAN_BOLTZMANN_MJ_K4_M2_DAY = 4.903e-9  # FAO 56, Eq. 39
KELVIN = 273.16  # FAO 56, Eq. 39
MM_PER_MJ_M2 = 0.408  # FAO 56, Eq. 20
MINUTES_PER_DAY = 1440
DAYS_OF_THE_ANGLE = 365  # FAO 56, Eq. 23 and 24
OVERCAST_SHARE, CLEAR_SHARE = 0.25, 0.50  # FAO 56, Eq. 35: a_s and b_s
#: Sunshine recorders may count a little over the geometric day, because air bends light (our judgement), h.
BENDING_H = 0.5
#: Share of a clear sky's sun above which no more warmth is lost to the sky (FAO 56, page 52: limited to 1).
MOST_CLEAR_SHARE = 1.0
#: Share of the clear sky taken where the sun does not rise (FAO 56, page 58: 0.4 to 0.6 in humid places).
CLOUD_OF_POLAR_NIGHT = 0.5


class NetRadiation(NamedTuple):
    """Long waves lost and what grass keeps, MJ/m² a day."""

    net_longwave_mj_m2_day: Series
    net_radiation_mj_m2_day: Series


def extraterrestrial_radiation(latitude_deg: Series, day_of_year: Series) -> Series:
    """Radiation on a level above the air, MJ/m² a day.

    Parameters
    ----------
    latitude_deg : -90 to 90, the south negative.
    day_of_year : 1 to 366.

    Raises ImpossibleValue outside these ranges.
    Source: FAO 56, Eq. 21 to 25.
    """
    latitude, declination, sunset = _sun(latitude_deg, day_of_year)
    nearness = 1 + 0.033 * np.cos(_year_angle(day_of_year))
    height = sunset * np.sin(latitude) * np.sin(declination) + (
        np.cos(latitude) * np.cos(declination) * np.sin(sunset)
    )
    return np.maximum(MINUTES_PER_DAY / np.pi * SOLAR_CONSTANT_MJ_M2_MIN * nearness * height, 0.0)


def daylight_hours(latitude_deg: Series, day_of_year: Series) -> Series:
    """Longest sunshine a day can have, h, 0 to 24.

    Parameters as :func:`extraterrestrial_radiation`. Raises ImpossibleValue outside them.
    Source: FAO 56, Eq. 34.
    """
    return 24 / np.pi * _sun(latitude_deg, day_of_year)[2]


def solar_radiation(
    latitude_deg: Series,
    day_of_year: Series,
    sunshine_h: Series | None = None,
    maximum_c: Series | None = None,
    minimum_c: Series | None = None,
    krs: float | None = None,
) -> Series:
    """Radiation at the ground, MJ/m² a day, from sunshine or from the range of temperature.

    Parameters
    ----------
    latitude_deg, day_of_year : as :func:`extraterrestrial_radiation`.
    sunshine_h : 0 to the length of the day (half an hour over is let pass); or instead
    maximum_c, minimum_c : -90 to 60, and krs : 0.05 to 0.3 (0.16 inland, 0.19 coast).

    Raises ImpossibleValue outside these ranges, or when neither or both ways are given.
    Source: FAO 56, Eq. 35 and 50.
    """
    from_range = maximum_c, minimum_c, krs
    if sunshine_h is not None and all(one is None for one in from_range):
        return _from_sunshine(latitude_deg, day_of_year, sunshine_h)
    if sunshine_h is not None or any(one is None for one in from_range):
        raise ImpossibleValue("input", "neither or both", "sunshine, or maximum, minimum and krs")
    require_extremes(maximum_c, minimum_c)
    require_range("krs", krs, 0.05, 0.3)
    return (
        krs
        * np.sqrt(np.subtract(maximum_c, minimum_c))
        * extraterrestrial_radiation(latitude_deg, day_of_year)
    )


def clear_sky_radiation(latitude_deg: Series, day_of_year: Series, altitude_m: Series) -> Series:
    """Radiation at the ground under a clear sky, MJ/m² a day.

    Parameters
    ----------
    latitude_deg, day_of_year : as :func:`extraterrestrial_radiation`.
    altitude_m : -500 to 9000 above the sea.

    Raises ImpossibleValue outside these ranges.
    Source: FAO 56, Eq. 37.
    """
    require_range("altitude, m", altitude_m, -500, 9000)
    return (0.75 + 2e-5 * np.asarray(altitude_m)) * extraterrestrial_radiation(latitude_deg, day_of_year)


def net_radiation(
    solar_mj_m2_day: Series,
    clear_sky_mj_m2_day: Series,
    maximum_c: Series,
    minimum_c: Series,
    actual_kpa: Series,
    albedo: float = ALBEDO,
    most_clear_share: float = MOST_CLEAR_SHARE,
) -> NetRadiation:
    """Radiation that grass keeps, and the long waves it loses, MJ/m² a day.

    Parameters
    ----------
    solar_mj_m2_day, clear_sky_mj_m2_day : 0 to 60.
    maximum_c, minimum_c : -90 to 60.
    actual_kpa : 0 to 20, vapour pressure.
    albedo : 0 to 1.
    most_clear_share : 1 or more, what the ratio of the two counts as at most; some
        published series do not limit it.

    Raises ImpossibleValue outside these ranges.
    Source: FAO 56, Eq. 38 to 40.
    """
    require_range("radiation, MJ/m² a day", solar_mj_m2_day, 0, 60)
    require_range("radiation under a clear sky, MJ/m² a day", clear_sky_mj_m2_day, 0, 60)
    require_extremes(maximum_c, minimum_c)
    require_range("vapour pressure, kPa", actual_kpa, 0, 20)
    require_range("albedo", albedo, 0, 1)
    require_range("share of a clear sky's sun", most_clear_share, 1)
    warmth = (np.add(maximum_c, KELVIN) ** 4 + np.add(minimum_c, KELVIN) ** 4) / 2
    dryness = 0.34 - 0.14 * np.sqrt(actual_kpa)
    cloud = 1.35 * _clearness(solar_mj_m2_day, clear_sky_mj_m2_day, most_clear_share) - 0.35
    longwave = STEFAN_BOLTZMANN_MJ_K4_M2_DAY * warmth * dryness * cloud
    return NetRadiation(longwave, np.multiply(1 - albedo, solar_mj_m2_day) - longwave)


def _from_sunshine(latitude_deg: Series, day_of_year: Series, sunshine_h: Series) -> Series:
    longest = daylight_hours(latitude_deg, day_of_year)
    require_range("sunshine, h", sunshine_h, 0)
    excess = np.atleast_1d(np.subtract(sunshine_h, longest))
    if (excess > BENDING_H).any():
        worst = int(np.argmax(excess))
        raise ImpossibleValue(
            "sunshine, h",
            np.broadcast_to(sunshine_h, excess.shape)[worst].item(),
            f"at most the {np.broadcast_to(longest, excess.shape)[worst]:.1f} h of that day",
        )
    share = np.divide(sunshine_h, np.maximum(longest, 1e-9))
    return (OVERCAST_SHARE + CLEAR_SHARE * share) * extraterrestrial_radiation(latitude_deg, day_of_year)


def _clearness(solar: Series, clear_sky: Series, most: float) -> Series:
    """Radiation as a share of that of a clear sky, at most ``most``."""
    lit = np.asarray(clear_sky) > 0
    share = np.minimum(np.divide(solar, np.where(lit, clear_sky, 1.0)), most)
    return np.where(lit, share, CLOUD_OF_POLAR_NIGHT)


def _year_angle(day_of_year: Series) -> Series:
    return 2 * np.pi * np.asarray(day_of_year) / DAYS_OF_THE_ANGLE


def _sun(latitude_deg: Series, day_of_year: Series) -> tuple[Series, Series, Series]:
    """Latitude, declination of the sun and hour angle of sunset, all in radians."""
    require_range("latitude, degrees", latitude_deg, -90, 90)
    require_range("day of the year", day_of_year, 1, 366)
    latitude = np.radians(latitude_deg)
    declination = 0.409 * np.sin(_year_angle(day_of_year) - 1.39)
    sunset = np.arccos(np.clip(-np.tan(latitude) * np.tan(declination), -1, 1))
    return latitude, declination, sunset
