"""The bars of height and of growth, day by day (our judgement, editable by each club)."""

from datetime import date, timedelta

from growin.agronomy.facts import Evidence, GrowthFacts, HeightFacts, HeightOnDay, ReadingFacts
from growin.agronomy.rules import MET, NOT_KNOWN, NOT_MET
from tests.agronomy.a_green import (
    AS_OF,
    HELD,
    a_green,
    cut_at,
    days,
    found,
    warm,
)


class TestHeight:
    """Opening height held for 14 days without scalping: our judgement."""

    def test_held_for_sixteen_days(self):
        assert found("height", a_green()).sentences[1] == (
            "Opening height of 5.5 mm held for 16 days, since Mon 30 March; 14 wanted."
        )

    def test_not_yet_long_enough_says_the_earliest_day(self):
        heights = cut_at((date(2026, 4, 1), 7.0), (date(2026, 4, 8), 5.5), (date(2026, 4, 15), 5.5))
        finding = found("height", a_green(heights=heights))
        assert finding.state == NOT_MET
        assert finding.sentences[1].endswith("since Wed 8 April; 14 wanted. Wed 22 April at the earliest.")

    def test_a_bench_setting_is_no_measured_height(self):
        heights = cut_at((date(2026, 3, 20), 5.5), (date(2026, 4, 15), 5.5), measured=False)
        finding = found("height", a_green(heights=heights))
        settles = "Measure the height on the green. Its 14 days count from the first day so measured."
        assert (finding.state, finding.settles) == (NOT_KNOWN, (settles,))
        assert "by the bench only, since Fri 20 March" in " ".join(finding.sentences)

    def test_a_height_read_as_a_measure_counts_as_measured(self):
        cuts = cut_at((date(2026, 3, 20), 5.5), (date(2026, 4, 15), 5.5), measured=False)
        evidence = a_green(heights=cuts)
        measured = ReadingFacts("height", date(2026, 3, 28), [5.4, 5.5, 5.6])
        finding = found("height", Evidence("seed", (*evidence.readings, measured), cuts))
        assert finding.sentences[1].startswith(
            "Opening height of 5.5 mm held for 18 days, since Sat 28 March"
        )

    def test_raising_the_mower_breaks_the_run(self):
        heights = cut_at((date(2026, 3, 20), 5.5), (date(2026, 4, 10), 7.0), (date(2026, 4, 15), 5.5))
        assert found("height", a_green(heights=heights)).state == NOT_MET

    def test_scalping_starts_the_fortnight_again(self):
        scalped = HeightOnDay(date(2026, 4, 6), 5.5, measured=True, scalped=True)
        heights = HeightFacts((*HELD.heights, scalped), 5.5)
        assert found("height", a_green(heights=heights)).state == NOT_MET

    def test_without_an_opening_height_it_is_not_known(self):
        finding = found("height", a_green(heights=HeightFacts(HELD.heights, None)))
        assert (finding.state, finding.settles) == (NOT_KNOWN, ("Set the opening height.",))

    def test_heights_that_are_no_longer_fresh_leave_it_not_known(self):
        finding = found("height", a_green(on=date(2026, 4, 30)), date(2026, 5, 1))
        assert (finding.state, finding.stale) == (NOT_KNOWN, True)


class TestGrowth:
    """Any one of air, soil or clippings; kept until the mean air falls under 6 °C: our judgement."""

    @staticmethod
    def _judged(facts, as_of=AS_OF, gate_on=date(2026, 4, 1)):
        return found("growth", Evidence("seed", growth=facts, gate_on=gate_on), as_of)

    def test_in_the_morning_the_week_ends_with_yesterday(self):
        until_yesterday = warm(count=7, until=AS_OF - timedelta(days=1))
        assert found("growth", a_green(growth=until_yesterday, gate_on=None)).state == MET

    def test_a_mean_air_of_8_degrees_is_growth(self):
        assert self._judged(warm(8.0)).sentences == ("7-day mean air 8 °C; 8 °C wanted.",)
        assert self._judged(warm(8.0)).state == MET

    def test_cold_air_alone_is_not_met(self):
        finding = self._judged(warm(7.9))
        assert finding.state == NOT_MET
        assert finding.sentences == (
            "7-day mean air 7.9 °C; 8 °C wanted. Any one of air, soil or clippings is enough.",
        )

    def test_soil_at_100_mm_counts_only_when_each_of_seven_days_reached_8(self):
        soil = dict.fromkeys(days(7), 8.0)
        assert self._judged(GrowthFacts(soil_c=soil)).state == MET
        assert self._judged(GrowthFacts(soil_c=soil | {AS_OF: 7.9})).state == NOT_MET

    def test_clippings_on_two_of_the_last_three_cuts_are_growth(self):
        cuts = {date(2026, 4, 8): 12.0, date(2026, 4, 11): 0.0, date(2026, 4, 14): 15.0}
        assert self._judged(GrowthFacts(clippings_ml_m2=cuts)).sentences == (
            "Clippings worth emptying on 2 of the last 3 cuts; 2 of 3 wanted.",
        )

    def test_clippings_of_last_autumn_say_nothing(self):
        cuts = dict.fromkeys(days(3, date(2025, 10, 20)), 20.0)
        assert self._judged(GrowthFacts(clippings_ml_m2=cuts)).state == NOT_KNOWN

    def test_a_missing_day_of_air_is_no_mean(self):
        facts = GrowthFacts(air_c=dict.fromkeys(days(6), 12.0))
        assert self._judged(facts).state == NOT_KNOWN

    def test_once_met_after_the_gate_it_stays_met_in_a_cool_week(self):
        air = dict.fromkeys(days(7, date(2026, 4, 9)), 9.0) | dict.fromkeys(days(7), 6.5)
        finding = self._judged(GrowthFacts(air_c=air))
        assert finding.state == MET
        assert finding.sentences == (
            "Growing since Thu 9 April; the mean air has not fallen under 6 °C since.",
        )

    def test_a_week_under_6_degrees_loses_it(self):
        air = dict.fromkeys(days(7, date(2026, 4, 9)), 9.0) | dict.fromkeys(days(7), 5.9)
        assert self._judged(GrowthFacts(air_c=air)).state == NOT_MET

    def test_met_before_the_gate_only_is_not_kept(self):
        air = dict.fromkeys(days(7, date(2026, 4, 5)), 9.0) | dict.fromkeys(days(11), 6.5)
        assert self._judged(GrowthFacts(air_c=air), gate_on=date(2026, 4, 15)).state == NOT_MET

    def test_kept_growth_without_any_air_since_is_not_known(self):
        facts = warm(until=date(2026, 4, 5))
        assert self._judged(facts, date(2026, 4, 12)).state == MET
        assert self._judged(facts, date(2026, 4, 30)).state == NOT_KNOWN
