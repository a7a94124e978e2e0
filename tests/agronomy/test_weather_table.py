"""Weather tables: what headers, days and figures say, what is refused, what is asked back."""

from datetime import date, timedelta

import pandas as pd
import pytest

from growin.agronomy.climate import Climate
from growin.agronomy.weather_cells import DAY_FIRST, MONTH_FIRST, as_days, as_figures
from growin.agronomy.weather_columns import METRIC, US, Column, recognised
from growin.agronomy.weather_table import Bounds, NotDaily, UnitDoubt, Wrong, read_days

NORMALS_C = (4.0, 4.3, 6.2, 8.5, 11.5, 14.4, 16.5, 16.3, 13.9, 10.4, 6.8, 4.4)
BOUNDS = Bounds(date(1950, 1, 1), date(2026, 4, 16), Climate(NORMALS_C))
COLUMNS = {"on": Column(0), "min_c": Column(1, "c"), "max_c": Column(2, "c"), "rain_mm": Column(3, "mm")}

HEADERS = {
    "Date": ("on", ""),
    "DATE/TIME": ("on", ""),
    "Day": ("on", ""),
    "Tmin": ("min_c", "c"),
    "MinTemp (°C)": ("min_c", "c"),
    "Lowest air temperature, °C": ("min_c", "c"),
    "TMAX": ("max_c", "c"),
    "max_temp_f": ("max_c", "f"),
    "High °F": ("max_c", "f"),
    "Mean temp": ("mean_c", "c"),
    "Temperature [deg F]": ("mean_c", "f"),
    "Rainfall (mm)": ("rain_mm", "mm"),
    "Precip in": ("rain_mm", "in"),
    "PRCP": ("rain_mm", "mm"),
    "RH %": ("humidity_percent", ""),
    "Relative humidity": ("humidity_percent", ""),
    "Wind speed km/h": ("wind_m_s", "km_h"),
    "Mean wind (knots)": ("wind_m_s", "kn"),
    "Wind": ("wind_m_s", "m_s"),
    "Sunshine (h)": ("sunshine_h", ""),
    "Soil temp 100 mm °C": ("soil_100_c", "c"),
    "Soil 4 in °F": ("soil_100_c", "f"),
}


@pytest.mark.parametrize(("header", "meant"), HEADERS.items(), ids=HEADERS)
def test_headers_are_understood(header, meant):
    assert {key: (key, column.unit) for key, column in recognised([header]).items()} == {meant[0]: meant}


ANOTHER_MATTER = (
    "Dew point",
    "Wind gust",
    "Max wind",
    "Rain rate",
    "Wind direction",
    "Min humidity",
    "Notes",
)


@pytest.mark.parametrize("header", ANOTHER_MATTER)
def test_what_is_measured_in_another_way_is_left_alone(header):
    assert recognised([header]) == {}


def test_a_header_without_a_unit_is_in_the_clubs_own():
    units = [
        {key: column.unit for key, column in recognised(["Max", "Rain", "Wind"], usual).items()}
        for usual in (METRIC, US)
    ]
    assert units == [
        {"max_c": "c", "rain_mm": "mm", "wind_m_s": "m_s"},
        {"max_c": "f", "rain_mm": "in", "wind_m_s": "mph"},
    ]


def test_of_two_soils_the_one_at_100_mm_is_read():
    assert recognised(["Soil 50 mm", "Soil 100 mm"])["soil_100_c"].place == 1


SIXTEENTH = ("2026-04-16", "2026-04-16T09:00", "2026/4/16", "16/04/2026", "16.4.26", "16-04-2026 00:00",
             "20260416", "16 Apr 2026", "Thu 16 April 2026", "46128")  # fmt: skip


@pytest.mark.parametrize("text", SIXTEENTH)
def test_a_day_is_read_however_it_is_written(text):
    days, _ = as_days(pd.Series([text]))
    assert days.dt.date.tolist() == [date(2026, 4, 16)]


@pytest.mark.parametrize("text", ["31/02/2026", "2026-13-01", "yesterday", "", "12.5", "16/04", "99999"])
def test_what_is_no_day_is_none(text):
    days, _ = as_days(pd.Series([text]))
    assert days.isna().all() or days.dt.year.tolist() == [2173]


def test_days_above_twelve_tell_which_comes_first():
    days, order = as_days(pd.Series(["04/05/2026", "04/16/2026"]))
    assert (order, days.dt.date.tolist()) == (MONTH_FIRST, [date(2026, 4, 5), date(2026, 4, 16)])
    assert as_days(pd.Series(["04/05/2026"]))[0].dt.date.tolist() == [date(2026, 5, 4)]


def test_figures_have_points_commas_minus_signs_and_holes():
    texts = pd.Series(["12.5", "12,5", "−1,5", "85 %", "-999", "n/a", "", "wet", "tr"])
    figures, is_wrong = as_figures(texts, has_traces=True)
    assert figures.fillna(99).tolist() == [12.5, 12.5, -1.5, 85, 99, 99, 99, 99, 0]
    assert is_wrong.tolist() == [False] * 7 + [True, False]


def table(*rows: tuple) -> pd.DataFrame:
    """Rows as they stand in a file below one row of headers."""
    texts = [[str(cell) for cell in row] for row in rows]
    return pd.DataFrame(texts, index=range(2, len(rows) + 2))


def days_from(first: date, *figures: tuple) -> pd.DataFrame:
    return table(*((first + timedelta(days=n), *one) for n, one in enumerate(figures)))


def test_a_good_table_is_read_whole():
    read = read_days(days_from(date(2026, 4, 1), (3, 12, 0), (4.25, "", 1.5)), COLUMNS, BOUNDS)
    assert read.figures == {
        date(2026, 4, 1): {"min_c": 3, "max_c": 12, "rain_mm": 0},
        date(2026, 4, 2): {"min_c": 4.2, "rain_mm": 1.5},
    }
    assert (read.wrong, read.gaps, read.doubt, read.order) == ((), [], None, DAY_FIRST)


WRONG = {
    "−60 °C": (("2026-04-01", -60, 9, 0), "Lowest, °C: -60 is not possible; it should be from -50 to 45."),
    "+60 °C": (("2026-04-01", 4, 60, 0), "Highest, °C: 60 is not possible; it should be from -50 to 57."),
    "highest under lowest": (
        ("2026-04-01", 9, 4, 0),
        "Highest, °C: 4 is not possible; it should be at least the lowest of the day, 9.",
    ),
    "rain below nought": (
        ("2026-04-01", 4, 9, -3),
        "Rain, mm: -3 is not possible; it should be from 0 to 500.",
    ),
    "letters": (("2026-04-01", 4, "mild", 0), "Highest: “mild” is not a number."),
    "no day": (("April", 4, 9, 0), "“April” is not a day; write it as 2026-04-16 or 16/04/2026."),
    "a day to come": (("2026-04-17", 4, 9, 0), "17 April 2026 lies in the future."),
    "a day of long ago": (("1849-04-17", 4, 9, 0), "17 April 1849 lies before 1950."),
    "far from any April": (
        ("2026-04-01", 38, 44, 0),
        "A mean of 41 °C is 34 °C from the normal of that day, 7.4 °C; a broken sensor or another unit.",
    ),
}


@pytest.mark.parametrize(("row", "sentence"), WRONG.values(), ids=WRONG)
def test_a_row_that_cannot_be_is_named_with_its_reason(row, sentence):
    good = days_from(date(2026, 3, 1), *[(3, 12, 0)] * 5)
    read = read_days(pd.concat([good, table(row).set_axis([7])]), COLUMNS, BOUNDS)
    assert (read.wrong, len(read.figures)) == ((Wrong(7, sentence),), 5)


def test_a_day_that_stands_twice():
    same, other = ("2026-04-02", 3, 9, 0), ("2026-04-03", 3, 9, 0)
    third = ("2026-04-04", 3, 9, 0)
    read = read_days(table(same, same, other, ("2026-04-03", 3, 10, 0), third), COLUMNS, BOUNDS)
    assert (read.said_twice, list(read.figures)) == (1, [date(2026, 4, 2), date(2026, 4, 4)])
    sentence = "03 April 2026 stands in rows 4 and 5 with different figures."
    assert read.wrong == (Wrong(4, sentence), Wrong(5, sentence))


def test_a_file_joined_to_itself_is_read_once():
    days = days_from(date(2026, 4, 1), *[(3, 9, 0)] * 5)
    read = read_days(pd.concat([days, days.set_axis(range(7, 12))]), COLUMNS, BOUNDS)
    assert (read.said_twice, len(read.figures), read.wrong) == (5, 5, ())


def test_gaps_and_rows_without_a_figure_are_said():
    rows = [("2026-04-01", 3, 9, 0), ("2026-04-02", "", "", ""), ("2026-04-06", 3, 9, 0)]
    read = read_days(table(*rows), COLUMNS, BOUNDS)
    assert (read.without_figures, read.gaps) == (1, [(date(2026, 4, 2), date(2026, 4, 5))])


@pytest.mark.parametrize(
    ("days", "newest_first", "out_of_order"),
    [((1, 2, 3), False, False), ((3, 2, 1), True, False), ((1, 3, 2), False, True)],
)
def test_days_may_run_backwards_but_not_to_and_fro(days, newest_first, out_of_order):
    read = read_days(table(*((f"2026-04-0{day}", 3, 9, 0) for day in days)), COLUMNS, BOUNDS)
    assert (read.is_newest_first, read.is_out_of_order) == (newest_first, out_of_order)
    assert list(read.figures) == [date(2026, 4, 1), date(2026, 4, 2), date(2026, 4, 3)]


def test_hours_are_not_days():
    with pytest.raises(NotDaily, match="Each day stands 24 times in this file"):
        hours = [(f"2026-04-0{day} {hour:02}:00", hour / 3, 9, 0) for day in (1, 2) for hour in range(24)]
        read_days(table(*hours), COLUMNS, BOUNDS)


def test_a_table_without_days_is_none():
    with pytest.raises(NotDaily, match="No row of this file has a day"):
        read_days(table(("mild", 3, 9, 0)), COLUMNS, BOUNDS)


class TestFahrenheitInACelsiusColumn:
    """Ten days of early April: 38–50 °F is 3–10 °C, as the normals of such a place have it."""

    FAHRENHEIT = days_from(date(2026, 4, 1), *[(38, 50, 0)] * 10)

    def test_is_asked_back_and_nothing_is_kept(self):
        read = read_days(self.FAHRENHEIT, COLUMNS, BOUNDS)
        rounded = UnitDoubt("c", round(read.doubt.off_c), "f", round(read.doubt.instead_off_c))
        assert (rounded, dict(read.figures)) == (UnitDoubt("c", 36, "f", -1), {})

    @pytest.mark.parametrize("normals", [Climate(NORMALS_C), None], ids=["normals", "no normals"])
    def test_with_and_without_normals(self, normals):
        read = read_days(self.FAHRENHEIT, COLUMNS, Bounds(BOUNDS.earliest, BOUNDS.latest, normals))
        assert read.doubt.instead == "f"

    def test_is_converted_once_it_is_said(self):
        columns = COLUMNS | {"min_c": Column(1, "f"), "max_c": Column(2, "f")}
        read = read_days(self.FAHRENHEIT, columns, BOUNDS)
        assert (read.doubt, read.figures[date(2026, 4, 1)]) == (
            None,
            {"min_c": 3.3, "max_c": 10, "rain_mm": 0},
        )

    def test_celsius_in_a_fahrenheit_column_is_asked_back_too(self):
        columns = COLUMNS | {"min_c": Column(1, "f"), "max_c": Column(2, "f")}
        read = read_days(days_from(date(2026, 1, 1), *[(2, 8, 0)] * 10), columns, BOUNDS)
        assert (read.doubt.unit, read.doubt.instead) == ("f", "c")

    def test_a_heat_wave_is_not_doubted(self):
        heat = days_from(date(2025, 7, 1), *[(18, 34, 0)] * 10)
        assert read_days(heat, COLUMNS, BOUNDS).doubt is None


def test_inches_and_miles_an_hour_are_converted():
    """1 inch is 25.4 mm, 10 mph 4.47 m/s, 10 knots 5.14 m/s (NIST SP 811, appendix B.8)."""
    columns = {"on": Column(0), "rain_mm": Column(1, "in"), "wind_m_s": Column(2, "mph")}
    read = read_days(days_from(date(2026, 4, 1), (1, 10)), columns, BOUNDS)
    knots = read_days(days_from(date(2026, 4, 1), (1, 10)), columns | {"wind_m_s": Column(2, "kn")}, BOUNDS)
    assert read.figures[date(2026, 4, 1)] == {"rain_mm": 25.4, "wind_m_s": 4.5}
    assert knots.figures[date(2026, 4, 1)]["wind_m_s"] == 5.1
