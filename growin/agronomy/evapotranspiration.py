"""Water that grass and air ask for, mm a day.

Nomenclature: temperatures in °C, vapour pressures in kPa, wind in m/s, depths of water in
mm (1 mm = 1 litre on each square metre). Every function takes a number or a series.

Symbols and constants are those of Allen, Pereira, Raes & Smith, 1998, Crop
evapotranspiration, FAO Irrigation and Drainage Paper 56 ("FAO 56" below).
"""

from typing import NamedTuple

import numpy as np

from growin.agronomy.defaults import COMMON_PRACTICE, PUBLISHED, Default, table
from growin.agronomy.growth import Series, mean_temperature, require_extremes
from growin.agronomy.impossible import ImpossibleValue, require_range
from growin.agronomy.radiation import (
    ALBEDO,
    MM_PER_MJ_M2,
    MOST_CLEAR_SHARE,
    clear_sky_radiation,
    extraterrestrial_radiation,
    net_radiation,
    solar_radiation,
)

_FAO = "FAO Irrigation and Drainage Paper 56"
DEFAULTS = table(
    Default(
        "water.turf_coefficient_cool",
        0.95,
        "",
        "water use of cool-season turf",
        0.4,
        1.2,
        PUBLISHED,
        f"{_FAO}, Table 12",
    ),
    Default(
        "water.turf_coefficient_warm",
        0.85,
        "",
        "water use of warm-season turf",
        0.4,
        1.2,
        PUBLISHED,
        f"{_FAO}, Table 12",
    ),
    Default("water.wind_height_m", 10, "m", "height at which the wind is measured", 0.5, 50, COMMON_PRACTICE),
)


class Air(NamedTuple):
    """Pressure of the air and what it makes of the psychrometer."""

    pressure_kpa: Series
    psychrometric_constant_kpa_c: Series


class Vapour(NamedTuple):
    """Vapour pressures of a day; None where nothing tells how moist the air is."""

    saturation_kpa: Series
    actual_kpa: Series | None = None
    deficit_kpa: Series | None = None


def saturation_pressure(temperature_c: Series) -> Series:
    """Vapour pressure of saturated air, kPa, for -90 to 60 °C.

    Raises ImpossibleValue outside that range.
    Source: FAO 56, Eq. 11.
    """
    require_range("temperature, °C", temperature_c, -90, 60)
    return 0.6108 * np.exp(17.27 * np.asarray(temperature_c) / np.add(temperature_c, 237.3))


def vapour_pressure(
    maximum_c: Series,
    minimum_c: Series,
    maximum_humidity_percent: Series | None = None,
    minimum_humidity_percent: Series | None = None,
    dewpoint_c: Series | None = None,
    actual_kpa: Series | None = None,
) -> Vapour:
    """Saturation, actual vapour pressure and deficit of a day, kPa.

    Parameters
    ----------
    maximum_c, minimum_c : -90 to 60.
    At most one of: maximum and minimum humidity, 0 to 100 %; dew point, -90 to
    ``maximum_c``; actual pressure, 0 to saturation at ``maximum_c``.

    Raises ImpossibleValue outside these ranges, for half a pair, or more than one way.
    Source: FAO 56, Eq. 11, 12, 14, 17.
    """
    require_extremes(maximum_c, minimum_c)
    humidity = maximum_humidity_percent, minimum_humidity_percent
    _require_one_way(humidity, dewpoint_c, actual_kpa)
    at_maximum, at_minimum = saturation_pressure(maximum_c), saturation_pressure(minimum_c)
    saturation = (at_maximum + at_minimum) / 2
    if humidity != (None, None):
        actual = _from_humidity(at_maximum, at_minimum, *humidity)
    else:
        actual = actual_kpa if dewpoint_c is None else saturation_pressure(dewpoint_c)
    if actual is None:
        return Vapour(saturation)
    _require_below(actual, at_maximum)
    return Vapour(saturation, actual, saturation - actual)


def vapour_of_mean_humidity(maximum_c: Series, minimum_c: Series, humidity_percent: Series) -> Series:
    """Actual vapour pressure of a day of which only the mean humidity is known, kPa.

    Parameters
    ----------
    maximum_c, minimum_c : -90 to 60; humidity_percent : 0 to 100.

    Raises ImpossibleValue outside these ranges.
    Source: FAO 56, Eq. 19 (to be used in the absence of the highest and lowest humidity).
    """
    require_range("humidity, %", humidity_percent, 0, 100)
    return vapour_pressure(maximum_c, minimum_c).saturation_kpa * np.divide(humidity_percent, 100)


def psychrometric_constant(altitude_m: Series) -> Air:
    """Pressure of the air, kPa, and psychrometric constant, kPa/°C, at an altitude.

    ``altitude_m`` : -500 to 9000 above the sea. Raises ImpossibleValue outside.
    Source: FAO 56, Eq. 7 and 8.
    """
    require_range("altitude, m", altitude_m, -500, 9000)
    pressure = 101.3 * ((293 - 0.0065 * np.asarray(altitude_m)) / 293) ** 5.26
    return Air(pressure, 0.000665 * pressure)


def wind_speed_two_metres(wind_m_s: Series, height_m: float) -> Series:
    """Wind at two metres over grass, m/s, from a gauge at another height.

    Parameters
    ----------
    wind_m_s : 0 to 115 (no stronger gust was measured).
    height_m : 0.2 to 200.

    Raises ImpossibleValue outside these ranges.
    Source: FAO 56, Eq. 47.
    """
    require_range("wind, m/s", wind_m_s, 0, 115)
    require_range("height of the gauge, m", height_m, 0.2, 200)
    return np.multiply(wind_m_s, 4.87 / np.log(67.8 * height_m - 5.42))


def reference_evapotranspiration(
    latitude_deg: float,
    altitude_m: float,
    day_of_year: Series,
    tmax_c: Series,
    tmin_c: Series,
    ea_kpa: Series | None = None,
    rhmax_percent: Series | None = None,
    rhmin_percent: Series | None = None,
    tdew_c: Series | None = None,
    rs_mj_m2_day: Series | None = None,
    n_h: Series | None = None,
    krs: float | None = None,
    u2_m_s: Series | None = None,
    uz_m_s: Series | None = None,
    wind_height_m: float | None = None,
    g_mj_m2_day: Series = 0.0,
    albedo: float = ALBEDO,
    most_clear_share: float = MOST_CLEAR_SHARE,
) -> Series:
    """Reference evapotranspiration of well-watered grass by Penman-Monteith, mm a day.

    Parameters
    ----------
    latitude_deg : -90 to 90, the south negative; altitude_m : -500 to 9000.
    day_of_year : 1 to 366; tmax_c, tmin_c : -90 to 60.
    vapour : ``ea_kpa``, or ``rhmax_percent`` with ``rhmin_percent``, or ``tdew_c``.
    radiation : ``rs_mj_m2_day``, or sunshine ``n_h``, or ``krs`` (from the range).
    wind : ``u2_m_s``, or ``uz_m_s`` with ``wind_height_m``.
    g_mj_m2_day : heat into the soil, -20 to 20, 0 for single days.
    albedo : 0 to 1, sunshine thrown back; 0.23 for grass.
    most_clear_share : 1 or more, see :func:`~growin.agronomy.radiation.net_radiation`.

    Raises ImpossibleValue outside these ranges and when vapour, radiation or wind is
    missing or given twice.
    Source: FAO 56, Eq. 6.
    """
    vapour = vapour_pressure(tmax_c, tmin_c, rhmax_percent, rhmin_percent, tdew_c, ea_kpa)
    if vapour.actual_kpa is None:
        raise ImpossibleValue("vapour pressure", "nothing", "given, or the humidities, or the dew point")
    solar = _solar(latitude_deg, day_of_year, tmax_c, tmin_c, rs_mj_m2_day, n_h, krs)
    clear_sky = clear_sky_radiation(latitude_deg, day_of_year, altitude_m)
    kept = net_radiation(solar, clear_sky, tmax_c, tmin_c, vapour.actual_kpa, albedo, most_clear_share)
    require_range("heat into the soil, MJ/m² a day", g_mj_m2_day, -20, 20)
    wind = _wind(u2_m_s, uz_m_s, wind_height_m)
    energy = kept.net_radiation_mj_m2_day - g_mj_m2_day
    return penman_monteith(mean_temperature(tmax_c, tmin_c), energy, wind, vapour.deficit_kpa, altitude_m)


def penman_monteith(
    mean_c: Series, energy_mj_m2_day: Series, wind_m_s: Series, deficit_kpa: Series, altitude_m: float
) -> Series:
    """The equation itself, mm a day, from radiation less soil heat, wind at 2 m and deficit.

    Ranges as :func:`reference_evapotranspiration`, which checks them.
    Source: FAO 56, Eq. 6 with Eq. 13 for the slope.
    """
    slope = 4098 * saturation_pressure(mean_c) / np.add(mean_c, 237.3) ** 2
    constant = psychrometric_constant(altitude_m).psychrometric_constant_kpa_c
    by_sun = MM_PER_MJ_M2 * slope * energy_mj_m2_day
    by_wind = constant * 900 / np.add(mean_c, 273) * wind_m_s * deficit_kpa
    return (by_sun + by_wind) / (slope + constant * (1 + 0.34 * np.asarray(wind_m_s)))


def hargreaves_evapotranspiration(
    minimum_c: Series, maximum_c: Series, latitude_deg: float, day_of_year: Series
) -> Series:
    """Reference evapotranspiration from temperatures alone, mm a day, never below zero.

    Parameters
    ----------
    minimum_c, maximum_c : -90 to 60.
    latitude_deg : -90 to 90; day_of_year : 1 to 366.

    Raises ImpossibleValue outside these ranges.
    Source: FAO 56, Eq. 52, with 0.408 mm per MJ/m².
    """
    mean_c = mean_temperature(maximum_c, minimum_c)
    sun_mm = MM_PER_MJ_M2 * extraterrestrial_radiation(latitude_deg, day_of_year)
    return np.maximum(0.0023 * (mean_c + 17.8) * np.sqrt(np.subtract(maximum_c, minimum_c)) * sun_mm, 0.0)


def crop_evapotranspiration(
    et0_mm_day: Series, crop_coefficient: float, stress_coefficient: Series = 1.0
) -> Series:
    """Evapotranspiration of a sward, mm a day.

    Parameters
    ----------
    et0_mm_day : 0 to 25.
    crop_coefficient : 0 to 2; turf 0.95 cool-season, 0.85 warm-season.
    stress_coefficient : 0 to 1, 1 where the roots find all the water they ask for.

    Raises ImpossibleValue outside these ranges.
    Source: FAO 56, Eq. 58 and 81, Table 12.
    """
    require_range("reference evapotranspiration, mm a day", et0_mm_day, 0, 25)
    require_range("crop coefficient", crop_coefficient, 0, 2)
    require_range("stress coefficient", stress_coefficient, 0, 1)
    return np.multiply(et0_mm_day, crop_coefficient) * stress_coefficient


def _solar(latitude_deg, day_of_year, tmax_c, tmin_c, rs_mj_m2_day, n_h, krs) -> Series:
    """Radiation at the ground from whichever one of three ways is given."""
    given = [name for name, one in (("rs", rs_mj_m2_day), ("n", n_h), ("krs", krs)) if one is not None]
    if len(given) != 1:
        raise ImpossibleValue(
            "radiation", " and ".join(given) or "nothing", "one of measured radiation, sunshine and krs"
        )
    if rs_mj_m2_day is not None:
        return rs_mj_m2_day
    if n_h is not None:
        return solar_radiation(latitude_deg, day_of_year, sunshine_h=n_h)
    return solar_radiation(latitude_deg, day_of_year, maximum_c=tmax_c, minimum_c=tmin_c, krs=krs)


def _wind(u2_m_s: Series | None, uz_m_s: Series | None, wind_height_m: float | None) -> Series:
    """Wind at two metres from whichever of two ways is given."""
    if u2_m_s is not None and uz_m_s is None and wind_height_m is None:
        require_range("wind, m/s", u2_m_s, 0, 115)
        return u2_m_s
    if u2_m_s is None and uz_m_s is not None and wind_height_m is not None:
        return wind_speed_two_metres(uz_m_s, wind_height_m)
    raise ImpossibleValue(
        "wind", "incomplete or given twice", "at two metres, or with the height of the gauge"
    )


def _from_humidity(at_maximum: Series, at_minimum: Series, highest: Series, lowest: Series) -> Series:
    """Actual pressure from the humidities: the highest goes with the coldest hour."""
    require_range("highest humidity, %", highest, 0, 100)
    require_range("lowest humidity, %", lowest, 0, 100)
    return (at_minimum * highest + at_maximum * lowest) / 200


def _require_one_way(humidity: tuple, dewpoint_c: Series | None, actual_kpa: Series | None) -> None:
    ways = sum((any(one is not None for one in humidity), dewpoint_c is not None, actual_kpa is not None))
    if ways > 1:
        raise ImpossibleValue("vapour pressure", "given in more than one way", "given in one way")
    if sum(one is None for one in humidity) == 1:
        raise ImpossibleValue("humidity", "only one of the two", "highest and lowest together")


def _require_below(actual_kpa: Series, most_kpa: Series) -> None:
    require_range("vapour pressure, kPa", actual_kpa, 0)
    excess = np.atleast_1d(np.subtract(actual_kpa, most_kpa))
    if (excess > 1e-9).any():
        worst = int(np.argmax(excess))
        raise ImpossibleValue(
            "vapour pressure, kPa",
            round(np.broadcast_to(actual_kpa, excess.shape)[worst].item(), 3),
            f"at most the {np.broadcast_to(most_kpa, excess.shape)[worst]:.3f} of saturated air",
        )
