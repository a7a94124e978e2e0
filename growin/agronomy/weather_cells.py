"""Cells of a weather table as text made into days and figures, whole columns at a time.

Days stand as 2026-04-16, 16/04/2026, 16.4.26, 20260416, 16 Apr 2026 or as the number of days
that spreadsheets count; whether day or month comes first is told by the days above 12, and by
the club's custom where none is. Figures may have a decimal comma, and stations write a missing
one in many ways.
"""

import pandas as pd

DAY_FIRST, MONTH_FIRST = "dmy", "mdy"
#: How stations write that they have nothing (common practice).
MISSING = frozenset({"", "-", "--", "---", "n/a", "na", "nan", "null", "none", "x", "m", "missing", "*"})
MISSING_NUMBERS = frozenset({-99.0, -99.9, -999.0, -999.9, -9999.0, 9999.0})
TRACE = frozenset({"t", "tr", "trace"})
MONTHS = {name: n for n, name in enumerate(
    ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"), start=1
)}  # fmt: skip

_TIME = r"(?:[T ,].*)?"
_YEAR_FIRST = rf"(?P<year>\d{{4}})[-/. ](?P<month>\d{{1,2}})[-/. ](?P<day>\d{{1,2}}){_TIME}"
_RUN_TOGETHER = r"(?P<year>(?:19|20)\d\d)(?P<month>\d\d)(?P<day>\d\d)"
_YEAR_LAST = rf"(?P<one>\d{{1,2}})[-/. ](?P<two>\d{{1,2}})[-/. ](?P<year>\d{{4}}|\d\d){_TIME}"
_IN_WORDS = (
    r"(?:[a-z]+,? )?(?P<day>\d{1,2})[- ](?P<name>[a-z]{3})[a-z]*[-, ]+"
    rf"(?P<year>\d{{4}}|\d\d){_TIME}"
)
_SERIAL = r"(?P<serial>\d{5})(?:[.,]\d+)?"
_SERIAL_0 = pd.Timestamp("1899-12-30")
_CENTURY_TURNS = 50


def as_days(texts: pd.Series, usual: str = DAY_FIRST, order: str | None = None) -> tuple[pd.Series, str]:
    """Days of a column, NaT where a cell is none, and which of day and month was taken to come first.

    ``order`` is what somebody said; else the days tell, else it is the ``usual`` one.
    """
    bare = texts.str.strip().str.lower()
    order = order or order_of(bare, usual)
    days = pd.Series(pd.NaT, index=texts.index, dtype="datetime64[s]")
    for one in (_year_first, _run_together, lambda left: _year_last(left, order), _in_words, _serial):
        left = bare[days.isna()]
        if left.empty:
            break
        days = days.fillna(one(left).astype("datetime64[s]"))
    return days, order


def order_of(bare: pd.Series, usual: str = DAY_FIRST) -> str:
    """Whether day or month comes first, by what cannot be a month; ``usual`` where both could."""
    parts = bare.str.extract(f"^{_YEAR_LAST}$")[["one", "two"]].astype(float)
    not_months = (parts > 12).sum()
    if not_months["one"] == not_months["two"]:
        return usual
    return DAY_FIRST if not_months["one"] > not_months["two"] else MONTH_FIRST


def _made(year: pd.Series, month: pd.Series, day: pd.Series) -> pd.Series:
    years = year.astype(float)
    years = years.where(years >= 100, years + 2000 - 100 * (years >= _CENTURY_TURNS))
    return pd.to_datetime({"year": years, "month": month, "day": day}, errors="coerce")


def _year_first(bare: pd.Series) -> pd.Series:
    parts = bare.str.extract(f"(?i)^{_YEAR_FIRST}$").astype(float)
    return _made(parts["year"], parts["month"], parts["day"])


def _run_together(bare: pd.Series) -> pd.Series:
    parts = bare.str.extract(f"^{_RUN_TOGETHER}$").astype(float)
    return _made(parts["year"], parts["month"], parts["day"])


def _year_last(bare: pd.Series, order: str) -> pd.Series:
    parts = bare.str.extract(f"(?i)^{_YEAR_LAST}$").astype(float)
    day, month = ("one", "two") if order == DAY_FIRST else ("two", "one")
    return _made(parts["year"], parts[month], parts[day])


def _in_words(bare: pd.Series) -> pd.Series:
    parts = bare.str.extract(f"(?i)^{_IN_WORDS}$")
    return _made(parts["year"], parts["name"].map(MONTHS).astype(float), parts["day"].astype(float))


def _serial(bare: pd.Series) -> pd.Series:
    """Days as spreadsheets count them: 1 is 1 January 1900, and 29 February 1900 is counted in error."""
    days = bare.str.extract(f"^{_SERIAL}$")["serial"].astype(float)
    return _SERIAL_0 + pd.to_timedelta(days, unit="D")


def as_figures(texts: pd.Series, has_traces: bool = False) -> tuple[pd.Series, pd.Series]:
    """Figures of a column, NaN where there is none, and which cells hold something that is no figure.

    ``has_traces``: a trace is noughts ("tr" in a column of rain).
    """
    bare = texts.str.strip().str.lower().str.replace("[−–]", "-", regex=True)
    bare = bare.str.replace(r"\s*(?:%|mm|°\s*c)$", "", regex=True)
    if has_traces:
        bare = bare.where(~bare.isin(TRACE), "0")
    is_with_comma = bare.str.fullmatch(r"[-+]?\d*,\d+")
    figures = pd.to_numeric(bare.where(~is_with_comma, bare.str.replace(",", ".")), errors="coerce")
    is_wrong = figures.isna() & ~bare.isin(MISSING)
    return figures.mask(figures.isin(MISSING_NUMBERS)), is_wrong
