"""What programs read: plain values, piece by piece, judged as on the pages; what is refused, and how."""

from datetime import timedelta

import pytest

from greens.actions.diary import take_back
from greens.choices import Units
from growin.actions.answer import put_off
from growin.actions.programme import issue_programme
from growin.evidence import verdict_of
from growin.interface.description import path_of
from growin.interface.endpoints import ENDPOINTS
from tests import rows
from tests.cast import laid_green
from tests.entries import at, label, logged
from tests.growin.asking import asking, told
from tests.growin.described import broken
from tests.growin.ripe import make_ready, read

pytestmark = pytest.mark.django_db
DESCRIPTION = "/interface/v1/description.json"


@pytest.fixture
def ask(cast):
    return asking(cast)


def of_green(cast, what: str) -> str:
    return f"greens/{cast.green.pk}/{what}/"


def test_a_program_reads_which_club_it_is_in(ask):
    assert told(ask()) == {
        "slug": "marram-links",
        "name": "Marram Links",
        "time_zone": "Europe/London",
        "today": "2026-04-16",
        "latitude_deg": 54.0,
        "altitude_m": 0,
    }


def test_a_program_reads_the_greens_and_how_they_are_played(cast, ask):
    rows.closed(cast.head, cast.establishment)
    assert told(ask("greens/")) == {
        "items": [
            {
                "id": cast.green.pk,
                "name": "Seventh",
                "number_on_card": 1,
                "area_m2": 450.0,
                "distance_to_water_m": None,
                "rebuild_id": cast.establishment.pk,
                "pattern": "closed",
                "is_shut_today": False,
            }
        ],
        "next": None,
    }


def test_a_program_reads_an_entry_with_its_units_in_the_names(cast, ask):
    feed = label(cast, lines={"N_total": 8})
    entry = logged(cast, "feed", products=[(feed, 11_250)], details={"form": "granular"}, note="Dry leaf")
    entry.refresh_from_db()
    assert told(ask("diary/"))["items"] == [
        {
            "id": entry.pk,
            "on": "2026-04-16",
            "at_time": None,
            "kind": "feed",
            "greens": [{"green_id": cast.green.pk, "rebuild_id": cast.establishment.pk, "area_m2": 450.0}],
            "details": {"form": "granular"},
            "products": [
                {
                    "product_id": feed.product_id,
                    "name": "Spring feed",
                    "amount_g": 11_250,
                    "amount_ml": None,
                }
            ],
            "nutrients_g_m2": {"N": 2.0},
            "minutes": None,
            "note": "Dry leaf",
            "over_limit": entry.over_limit,
            "done_by": "Callum Reed",
            "logged_at": entry.logged_at.isoformat(timespec="milliseconds").replace("+00:00", "Z"),
            "revision": 1,
        }
    ]


def test_an_entry_that_was_taken_back_is_no_longer_told(cast, ask):
    take_back(entry=logged(cast), by=cast.staff)
    assert told(ask("diary/"))["items"] == []


def test_figures_stay_metric_whatever_the_pages_show(cast, ask):
    logged(cast)
    cast.club.units = Units.US
    cast.club.save()
    assert told(ask("diary/"))["items"][0]["details"] == {"height_mm": 8}
    assert told(ask("greens/"))["items"][0]["area_m2"] == 450.0


def test_a_program_reads_readings_value_by_value(cast, ask):
    read(cast, "rooting_depth", [62, 55, 71, 58, 66], cast.today)
    one = told(ask("readings/", measure="rooting_depth"))["items"][0]
    assert (one["measure"], one["unit"], one["values"]) == ("rooting_depth", "mm", [62, 55, 71, 58, 66])
    assert told(ask("readings/", measure="hole"))["items"] == []


def test_the_verdict_is_that_of_the_page(cast, ask):
    make_ready(cast, hole=[True, True, False])
    page, program = verdict_of(cast.establishment, cast.today), told(ask(of_green(cast, "verdict")))
    assert (program["state"], program["as_of"]) == (page.state, "2026-04-16") == ("not ready", "2026-04-16")
    assert [(one["criterion"], one["state"]) for one in program["findings"]] == [
        (one.criterion, one.state) for one in page.findings
    ]


def test_the_programme_in_force_is_told_with_how_its_steps_stand(cast, ask):
    issue_programme(establishment=cast.establishment, by=cast.head, on=cast.today)
    drawn = issue_programme(establishment=cast.establishment, by=cast.head, on=cast.today)
    step, until = drawn.steps.filter(kind="feed", earliest__gt=cast.today).first(), cast.today + timedelta(90)
    put_off(establishment=cast.establishment, key=step.key, by=cast.head, on=cast.today, until=until)
    said = told(ask(of_green(cast, "programme")))
    one = next(one for one in said["steps"] if one["key"] == step.key)
    assert (said["number"], len(said["steps"])) == (2, drawn.steps.count())
    assert (one["state"], one["put_off_until"]) == ("put off", until.isoformat())
    assert (one["likely"], one["amount"], one["unit"]) == (step.likely.isoformat(), step.amount, step.unit)


def test_the_newest_forecast_says_whether_it_is_stale(cast, ask):
    rows.foreseen(cast.establishment)
    said = told(ask(of_green(cast, "forecast")))
    assert (said["ready_by_1_in_2"], said["is_stale"]) == ("2026-04-19", True)


@pytest.mark.parametrize(
    ("what", "sentence"),
    [
        ("programme", "No programme of Seventh has been drawn."),
        ("forecast", "No forecast of Seventh has been worked out yet."),
    ],
)
def test_what_is_not_there_yet_is_said_in_a_sentence(cast, ask, what, sentence):
    answer = ask(of_green(cast, what))
    assert (answer.status_code, answer.json()) == (404, {"error": sentence})


def test_a_green_without_a_rebuild_has_no_verdict(cast, ask):
    cast.establishment.delete()
    answer = ask(of_green(cast, "verdict"))
    assert (answer.status_code, answer.json()) == (404, {"error": "No rebuild of Seventh is on record."})


# ---- long lists ----------------------------------------------------------------------------------------


def in_pieces(ask, route: str, **said) -> list[list[int]]:
    """The ids of a whole list, piece by piece."""
    pieces, cursor = [], {}
    while True:
        answer = told(ask(route, **said, **cursor))
        pieces.append([one["id"] for one in answer["items"]])
        if answer["next"] is None:
            return pieces
        cursor = {"cursor": answer["next"]}


def test_a_long_diary_comes_in_pieces_the_newest_day_first(cast, ask):
    entries = [logged(cast, on=cast.today - timedelta(days=back)) for back in (3, 1, 1, 0, 2)]
    ids = [entries[n].pk for n in (3, 2, 1, 4, 0)]
    assert in_pieces(ask, "diary/", limit=2) == [ids[:2], ids[2:4], ids[4:]]
    assert in_pieces(ask, "diary/", limit=5) == [ids]


def test_what_comes_in_meanwhile_shifts_no_piece(cast, ask):
    first, second = (logged(cast, on=cast.today - timedelta(days=back)) for back in (2, 1))
    cursor = told(ask("diary/", limit=1))["next"]
    logged(cast)
    assert [one["id"] for one in told(ask("diary/", cursor=cursor))["items"]] == [first.pk]


def test_rebuilds_come_in_the_order_in_which_they_were_made(cast, ask):
    ids = [cast.establishment.pk, *(laid_green(cast.club, name).pk for name in ("Eighth", "Ninth"))]
    assert in_pieces(ask, "rebuilds/", limit=1) == [[pk] for pk in ids]


def test_a_diary_is_asked_for_by_days_green_and_kind(cast, ask):
    other = laid_green(cast.club, "Eighth")
    old, new = logged(cast, on=cast.today - timedelta(days=9)), logged(cast)
    brushed = logged(cast, "brush", greens=[other.green])
    asked = {
        "all": {},
        "since": {"since": "2026-04-10"},
        "until": {"until": "2026-04-10"},
        "green": {"green": other.green.pk},
        "kind": {"kind": "cut"},
    }
    found = {
        name: {one["id"] for one in told(ask("diary/", **said))["items"]} for name, said in asked.items()
    }
    assert found == {
        "all": {old.pk, new.pk, brushed.pk},
        "since": {new.pk, brushed.pk},
        "until": {old.pk},
        "green": {brushed.pk},
        "kind": {old.pk, new.pk},
    }


# ---- the description -----------------------------------------------------------------------------------


def test_every_address_is_described_and_explained(client, cast, as_):
    described = client.get(DESCRIPTION).json()
    assert described["openapi"].startswith("3.1")
    assert set(described["paths"]) == {path_of(one) for one in ENDPOINTS}
    page = as_("committee").get(at(cast, "interface")).content.decode()
    ours = [path_of(one).replace("{club_slug}", cast.club.slug) for one in ENDPOINTS]
    assert [path for path in ours if path not in page] == []
    assert DESCRIPTION in page


def test_every_answer_keeps_its_description(client, cast, ask):
    rows.rows_of(cast.head, cast.establishment)
    whole = client.get(DESCRIPTION).json()
    wrong = {}
    for one in ENDPOINTS:
        said = told(ask(one.route.replace("<int:green_id>", str(cast.green.pk))))
        schema = whole["paths"][path_of(one)]["get"]["responses"]["200"]["content"]["application/json"]
        wrong[one.name] = list(broken(said, schema["schema"], whole))
        assert said.get("items", True), f"nothing to look at in {one.name}"
    assert wrong == dict.fromkeys(wrong, [])
