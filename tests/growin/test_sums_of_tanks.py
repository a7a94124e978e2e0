"""The sum of a tank mix on its page."""

from greens.choices import AmountUnit, ProductKind, Units
from tests.growin.test_sums import figures, label, page, sentences


def test_a_tank_mix_for_a_green(cast, as_):
    iron = label(
        cast,
        "Iron liquid",
        ProductKind.LIQUID,
        AmountUnit.MILLILITRES,
        basis="w/v",
        parts={"N_total": 3, "Fe": 6},
    )
    answer = page(
        as_, cast, "tank", greens=cast.green.pk, water_l_ha="400", tank_l="15", label_1=iron.pk, rate_1="20"
    )
    # By hand: 400 l/ha on 450 m² are 18 l, one tank of 15 and one of 3; 20 l/ha are 900 ml, 750 and 150
    assert figures(answer) == {
        "Fillings": "1 full, then 3 l",
        "Spray in all": "18 l",
        "A full tank does": "375 m²",
        "Iron liquid in each filling": "750 ml, in the last 150 ml",
    }
    # 20 l/ha of a liquid with 30 g N and 60 g Fe in each litre
    assert answer.context["answer"].notes[0] == "The mix brings N 0.6 kg/ha, Fe 1.2 kg/ha."


def test_a_club_that_reads_gallons_mixes_its_tank_in_them(cast, as_):
    """NIST SP 811, B.8: half a US gallon on 1,000 ft² is 0.5 × 3.785412 l on 92.90304 m², 203.7 l/ha."""
    cast.club.units = Units.US
    cast.club.save()
    parts = {"N_total": 3, "Fe": 6}
    iron = label(cast, "Iron liquid", ProductKind.LIQUID, AmountUnit.MILLILITRES, basis="w/v", parts=parts)
    sent = {"greens": cast.green.pk, "water_l_ha": "2", "tank_l": "20", "label_1": iron.pk, "rate_1": "0.5"}
    answer = page(as_, cast, "tank", **sent)
    assert "US gal or lb/1,000 ft²" in answer.content.decode()
    # 203.7 l/ha with 30 g N and 60 g Fe in each litre
    assert answer.context["answer"].notes[0] == "The mix brings N 6.11 kg/ha, Fe 12.22 kg/ha."


def test_a_rate_without_its_product_and_a_product_without_its_rate_are_asked_for(cast, as_):
    iron = label(cast, "Iron liquid", ProductKind.LIQUID, AmountUnit.MILLILITRES)
    answer = page(
        as_, cast, "tank", greens=cast.green.pk, water_l_ha="400", tank_l="15", label_1=iron.pk, rate_2="3"
    )
    assert sentences(answer) == [
        "How much Iron liquid on each hectare?",
        "Choose the product that this rate belongs to.",
    ]
