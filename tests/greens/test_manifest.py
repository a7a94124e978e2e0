"""The record on a home screen.

W3C, Web Application Manifest (https://www.w3.org/TR/appmanifest/), from memory.
"""

import struct
from pathlib import Path

import pytest
from django.contrib.staticfiles import finders
from django.urls import resolve, reverse

from greens.views.manifest import PAPER, shortened

pytestmark = pytest.mark.django_db
#: What a browser wants before it offers to install (common practice), and what we promise beside it.
WANTED = {
    "id",
    "name",
    "short_name",
    "start_url",
    "scope",
    "display",
    "icons",
    "background_color",
    "theme_color",
}


@pytest.fixture
def answer(cast, as_):
    return as_("staff").get(reverse("manifest", args=[cast.club.slug]))


@pytest.fixture
def told(answer) -> dict:
    return answer.json()


def test_it_is_a_manifest_by_its_content_type(answer):
    assert answer.headers["Content-Type"] == "application/manifest+json"


def test_it_says_what_a_browser_wants_before_it_installs(told, cast):
    assert WANTED - told.keys() == set()
    assert (told["name"], told["short_name"]) == ("Marram Links: the greens record", "Marram Links")
    assert (told["display"], told["start_url"]) == ("standalone", reverse("today", args=[cast.club.slug]))


def test_start_and_shortcuts_lie_within_the_scope_and_open_something(told):
    """A browser leaves aside a start address or a shortcut outside the scope."""
    inside = [told["start_url"], *(one["url"] for one in told["shortcuts"])]
    assert [url for url in inside if not url.startswith(told["scope"])] == []
    assert [resolve(url.partition("#")[0]).url_name for url in inside] == ["today", "log", "today"]
    assert reverse("sign_in").startswith(told["scope"])


def size_in_its_head(path: Path) -> str:
    """Width and height of a picture: PNG specification, 11.2.2, IHDR is the first chunk."""
    head = path.read_bytes()[:24]
    assert (head[:8], head[12:16]) == (b"\x89PNG\r\n\x1a\n", b"IHDR")
    width, height = struct.unpack(">II", head[16:24])
    return f"{width}x{height}"


def test_each_icon_has_the_size_it_is_said_to_have(told):
    found = {one["src"]: Path(finders.find(one["src"].removeprefix("/static/"))) for one in told["icons"]}
    assert {src: size_in_its_head(path) for src, path in found.items()} == {
        one["src"]: one["sizes"] for one in told["icons"]
    }
    assert [(one["sizes"], one["purpose"]) for one in told["icons"]] == [
        ("192x192", "any"), ("512x512", "any"), ("512x512", "maskable"),
    ]  # fmt: skip
    assert size_in_its_head(Path(finders.find("greens/icon-touch-180.png"))) == "180x180"


def test_its_paper_is_the_paper_of_the_page(told):
    ground = Path(finders.find("greens/css/ground.css")).read_text()
    assert f"--paper: {PAPER};" in ground
    assert (told["background_color"], told["theme_color"]) == (PAPER, PAPER)


def test_only_the_pages_of_a_club_name_it(cast, as_, client):
    page = as_("committee").get(reverse("club", args=[cast.club.slug])).content.decode()
    address = reverse("manifest", args=[cast.club.slug])
    link = f'<link rel="manifest" href="{address}" crossorigin="use-credentials">'
    assert link in page
    assert 'rel="manifest"' not in client.get(reverse("sign_in")).content.decode()


@pytest.mark.parametrize(
    ("name", "short"),
    [
        ("Marram Links", "Marram Links"),
        ("Ternmoor Links", "Ternmoor"),
        ("The Old Heath at Sandholme", "The Old"),
        ("Thistlebrackenshire", "Thistlebrack"),
    ],
)
def test_the_name_under_the_icon_is_short(name, short):
    assert shortened(name) == short
