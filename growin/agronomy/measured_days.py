"""Whether measured daily means can be what they say: in order, of this earth, in Celsius."""

from collections.abc import Sequence
from datetime import date

from growin.agronomy.climate import Climate
from growin.agronomy.impossible import ImpossibleValue, require_range

#: No golf club has measured a daily mean or a monthly one outside these, °C (our judgement).
COLDEST_DAY_C, HOTTEST_DAY_C = -50.0, 45.0
COLDEST_MONTH_C, HOTTEST_MONTH_C = -45.0, 40.0
#: A day so far from its normal was hardly read in Celsius (our judgement).
FAR_FROM_NORMAL_C = 30.0


def check_measured_days(days: Sequence[date], climate: Climate) -> None:
    """Refuse days out of order, temperatures that cannot be, and what looks like Fahrenheit.

    Parameters
    ----------
    days : the measured days in the order given.
    climate : with their means.

    Raises
    ------
    ImpossibleValue
        For the first day that is wrong, with its date and value.
    """
    require_range("normals_c, °C", climate.normals_c, COLDEST_MONTH_C, HOTTEST_MONTH_C)
    for before, after in zip(days[:-1], days[1:], strict=True):
        if after <= before:
            right = f"later than {before.isoformat()}, the day before it in the list"
            raise ImpossibleValue("measured day", after.isoformat(), right)
    for one in days:
        _check_day(one, climate)


def _check_day(one: date, climate: Climate) -> None:
    mean_c, normal_c = climate.mean_c(one), climate.normal_c(one)
    what = f"daily mean of {one.isoformat()}, °C"
    require_range(what, mean_c, COLDEST_DAY_C, HOTTEST_DAY_C)
    if abs(mean_c - normal_c) > FAR_FROM_NORMAL_C:
        right = f"within {FAR_FROM_NORMAL_C:g} of the normal {normal_c:.1f}, in Celsius and not in Fahrenheit"
        raise ImpossibleValue(what, f"{mean_c:g}", right)
