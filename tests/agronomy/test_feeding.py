import pytest

from growin.agronomy import feeding
from growin.agronomy.defaults import values
from growin.agronomy.impossible import ImpossibleValue

SETTINGS = values(feeding.DEFAULTS)


@pytest.mark.parametrize(
    ("establishment", "kind", "band"),
    [
        # First-season bands, our judgement: relaid 60–100, supplied or nursery 80–150, washed 100–180,
        # seeded bent 150–250, seeded fescue/bent 80–150 kg N/ha.
        ("turf_relaid", "fescue/bent", (60, 100)),
        ("turf_supplied", "creeping bent", (80, 150)),
        ("turf_nursery", "creeping bent", (80, 150)),
        ("turf_washed", "creeping bent", (100, 180)),
        ("seed", "creeping bent", (150, 250)),
        ("seed", "fine fescue", (80, 150)),
    ],
)
def test_first_season_bands(establishment, kind, band):
    assert feeding.season_band(establishment, kind, SETTINGS) == band


@pytest.mark.parametrize(
    ("n_kg_ha", "form", "said"),
    [
        # Asks above 10 foliar and 20 soluble granular; above 25 a reason and slow release; never above 49.
        (10, "foliar", ()),
        (
            10.5,
            "foliar",
            (
                "10.5 kg N/ha is high for one dose sprayed on the leaf; "
                "above 10 kg N/ha say that it is meant.",
            ),
        ),
        (20, "granular", ()),
        (24, "slow_release", ()),
        (30, "granular", ("30 kg N/ha: above 25 kg N/ha give a reason and use slow-release nitrogen.",)),
        (60, "granular", ("60 kg N/ha is over the limit of 49 kg N/ha for one dose.",)),
        (2, "foliar", ("2 kg N/ha is hard to spread evenly; gather doses to at least 3 kg N/ha.",)),
        (0, "foliar", ()),
    ],
)
def test_doses_are_judged_in_words(n_kg_ha, form, said):
    assert feeding.judge_dose(n_kg_ha, form, SETTINGS) == said


def test_a_high_dose_passes_with_its_reason_and_slow_release():
    reason = "one dose for the summer, adviser agrees"
    assert feeding.judge_dose(30, "slow_release", SETTINGS, reason=reason) == ()
    assert len(feeding.judge_dose(30, "granular", SETTINGS, reason=reason)) == 1


def test_the_local_limit_holds_where_it_is_lower():
    assert feeding.dose_limit_n_kg_ha(SETTINGS, 35) == 35
    assert feeding.dose_limit_n_kg_ha(SETTINGS, 60) == 49
    said = feeding.judge_dose(40, "slow_release", SETTINGS, reason="meant", local_limit_n_kg_ha=35)
    assert said == ("40 kg N/ha is over the limit of 35 kg N/ha for one dose.",)


def test_no_feeding_on_cold_soil_and_only_light_on_cool():
    # Under about 6 °C no feeding; 6–8 °C only light ammonium or nitrate with iron (common practice).
    assert not feeding.may_feed(5.9, SETTINGS)
    assert feeding.judge_dose(5, "granular", SETTINGS, soil_c=4.0) == (
        "The soil is at 4.0 °C; under 6 °C grass takes up next to nothing.",
    )
    assert feeding.judge_dose(12, "granular", SETTINGS, soil_c=7.0) == (
        "With the soil under 8 °C keep to 6 kg N/ha of ammonium or nitrate nitrogen with iron.",
    )


def test_companions_of_nitrogen():
    # K 0.5, P 0.125, Ca 0.125, Mg 0.05 for each 1 of N taken up (Woods, advisory manual).
    assert feeding.companions_kg_ha(10, SETTINGS) == {"k": 5.0, "p": 1.25, "ca": 1.25, "mg": 0.5}


def test_turf_is_fed_five_to_eight_every_seven_to_ten_days():
    assert [feeding.turf_dose_n_kg_ha(pace, SETTINGS) for pace in (0, 0.5, 1)] == [5, 6.5, 8]
    assert [feeding.turf_interval_days(pace, SETTINGS) for pace in (0, 0.5, 1)] == [10, 8, 7]


def test_trials_are_evidence_and_no_setting_takes_their_high_rates():
    # Oldest habit 25–50 every 7–10 days is history; the default for seed is 5 and 3 a week.
    assert feeding.seed_rates_n_kg_ha("creeping bent", SETTINGS) == (5, 10)
    assert feeding.seed_rates_n_kg_ha("fescue/bent", SETTINGS) == (3, 8)
    assert [trial.source for trial in feeding.TRIALS] == [
        "Michigan State University",
        "University of Nebraska",
        "Penn State University",
        "Agronomy Journal 102:1601 (2010)",
        "",
    ]


@pytest.mark.parametrize(("n_kg_ha", "form"), [(-1, "foliar"), (5, "powdered")])
def test_the_impossible_is_refused(n_kg_ha, form):
    with pytest.raises(ImpossibleValue):
        feeding.judge_dose(n_kg_ha, form, SETTINGS)
