"""A season's sum against its limit.

First-season nitrogen of relaid turf: 60 to 100 kg N/ha (our judgement, as the programme has it).
"""

import pytest

from growin.agronomy.season_limits import DEFAULTS, NEAR, OVER, standing

NEAR_PERCENT = DEFAULTS["season.near_percent"].value


@pytest.mark.parametrize(
    ("total", "stands"), [(0, ""), (84.9, ""), (85, NEAR), (100, NEAR), (100.1, OVER), (240, OVER)]
)
def test_close_from_85_per_cent_on_and_over_only_above_the_limit(total, stands):
    assert standing(total, 100, NEAR_PERCENT) == stands
