"""Every page that a head greenkeeper can open, on a phone and on a desk, in a real browser."""

import pytest

from tests.house.addresses import addresses
from tests.journeys.looked_at import barriers, overflow_px, small_targets
from tests.rows import rows_of

STRANGERS = ["sign_in", "ask_reset", "front"]


@pytest.fixture
def complaints(sized) -> list[str]:
    """What the browser's console says: a blocked script or style, a missing file, an error."""
    heard: list[str] = []
    sized.on("console", lambda said: heard.append(said.text) if said.type in ("error", "warning") else None)
    sized.on("pageerror", lambda error: heard.append(str(error)))
    return heard


def looked_at(page) -> dict:
    return {"barriers": barriers(page), "overflow": overflow_px(page), "small": small_targets(page)}


SOUND = {"barriers": {}, "overflow": 0, "small": []}


@pytest.mark.parametrize("name", STRANGERS)
def test_a_stranger_meets_a_sound_page(name, sized, live_server, complaints):
    path = next(one for one in addresses() if one.name == name).filled({})
    sized.goto(live_server.url + path)
    assert (looked_at(sized), complaints) == (SOUND, [])


def pages(rows: dict) -> list[str]:
    """Addresses in a club, filled."""
    return [one.filled(rows) for one in addresses() if one.is_in_a_club]


def test_every_page_of_a_club_is_sound(sized, enter, cast, complaints):
    url = enter("head")
    found = {}
    for path in pages(rows_of(cast.head, cast.establishment)):
        answer = sized.request.get(url + path)
        if answer.status != 200 or "text/html" not in answer.headers["content-type"]:
            continue
        sized.goto(url + path)
        found[path] = looked_at(sized)
    assert {path: seen for path, seen in found.items() if seen != SOUND} == {}
    assert complaints == []
