"""The everyday sums by the word that stands in their address."""

from collections.abc import Mapping
from dataclasses import dataclass

from django.core.exceptions import ObjectDoesNotExist

from growin.forms import sums_of_feeding as feeding
from growin.forms import sums_of_ground as ground
from growin.forms import sums_of_readings as readings
from growin.forms.sum_sheet import SumSheet


@dataclass(frozen=True)
class Sum:
    """One everyday sum: its words, the question it answers, its form, and the check of its formula."""

    words: str
    asks: str
    form: type[SumSheet]
    checked: str


SUMS: Mapping[str, Sum] = {
    "product": Sum("Product", "How much product brings a rate?", feeding.ProductSum, "nutrient_product"),
    "sand": Sum("Sand", "How much sand for a dressing?", ground.SandSum, "topdressing"),
    "tank": Sum(
        "Tank mix", "How often is the tank filled, and with what?", feeding.TankSum, "liquid_product"
    ),
    "spreader": Sum(
        "Spreader", "What must the spreader deliver, and does it?", feeding.SpreaderSum, "spreader_output"
    ),
    "sprayer": Sum("Sprayer", "What does the sprayer put out?", feeding.SprayerSum, "sprayer_output"),
    "water": Sum("Water", "How much water does it need?", ground.WaterSum, "irrigation_depth"),
    "even": Sum("Evenness", "How evenly do the heads throw?", ground.EvenSum, "distribution_uniformity"),
    "coring": Sum(
        "Hollow coring", "What is opened, and how much sand fills it?", ground.CoringSum, "hollow_coring"
    ),
    "soil": Sum("Soil test", "What does the soil test ask for?", feeding.SoilSum, "nutrient_requirement"),
    "seed": Sum("Seed", "How much seed is weighed out?", ground.SeedSum, "seed_quantity"),
    "clippings": Sum(
        "Clippings", "What do the boxes carry away?", feeding.ClippingsSum, "clippings_nitrogen"
    ),
    "mean": Sum(
        "Mean of readings", "How sure is the mean, and how many more?", readings.MeanSum, "mean_interval"
    ),
    "share": Sum(
        "Share of points",
        "How sure is the share, and how many more?",
        readings.ShareSum,
        "proportion_interval",
    ),
    "speed": Sum("Speed on a slope", "What would a level green show?", readings.SpeedSum, "green_speed"),
    "drain": Sum("Drain", "Does the pipe carry the rain?", ground.DrainSum, "pipe_capacity"),
}


def sum_named(club, key: str) -> Sum:
    """The sum of an address; raises ObjectDoesNotExist when there is none of that name."""
    if key not in SUMS:
        raise ObjectDoesNotExist(key)
    return SUMS[key]
