"""Pages for paper: titled, in our own type, from our own files; and what a site without Pango says."""

import os
import subprocess
import sys

import pytest
from django.urls import reverse

from growin.exports.press import PICTURE, is_ours, library, ours, static_folder
from tests.growin.paper import printed, without_pango
from tests.house.sources import ROOT

pytestmark = pytest.mark.django_db
pango = pytest.mark.pdf


@pango
def test_it_is_tagged_titled_and_in_its_language(cast, as_):
    paper = printed(cast, as_("committee"))
    assert (paper.root["/MarkInfo"]["/Marked"], paper.root["/Lang"]) == (True, "en-GB")
    assert paper.root["/ViewerPreferences"]["/DisplayDocTitle"]
    assert paper.reader.metadata.title == "Seventh, Marram Links: may it open? Thu 16 April 2026"
    assert 'pdfuaid:part="1"' in paper.root["/Metadata"].get_object().get_data().decode()


@pango
def test_it_is_set_in_our_own_type_which_it_carries(cast, as_):
    pages = printed(cast, as_("committee")).reader.pages
    fonts = [font.get_object() for page in pages for font in page["/Resources"]["/Font"].values()]
    names = {one["/BaseFont"].partition("+")[2] for one in fonts}
    assert {name.split("-")[1] for name in names} == {"Text", "Figures"}
    inside = [one["/DescendantFonts"][0].get_object()["/FontDescriptor"].get_object() for one in fonts]
    assert all("/FontFile2" in one for one in inside)


@pango
@pytest.mark.parametrize(
    "url",
    [
        "https://example.org/mark.svg",
        "file:///etc/hostname",
        "file://example.org/etc/hostname",
        f"{static_folder().as_uri()}/../../settings.py",
        f"{static_folder().as_uri()}/%2e%2e/%2e%2e/settings.py",
        "data:text/html;base64,PGI+",
    ],
)
def test_no_address_outside_our_own_files_is_read(url):
    with pytest.raises(ValueError, match="Outside our own files"):
        ours(library())(url)


@pango
def test_our_own_files_and_pictures_are_read():
    mark = ours(library())(f"{static_folder().as_uri()}/mark.svg")
    assert mark.read() == (static_folder() / "mark.svg").read_bytes()
    mark.close()
    assert is_ours(f"{PICTURE}PHN2Zy8+")


def test_without_pango_a_page_says_what_is_missing(cast, as_, monkeypatch):
    with without_pango(monkeypatch):
        answer = as_("staff").get(reverse("statement", args=[cast.club.slug, cast.green.pk]))
    assert answer.status_code == 503
    assert "needs the Pango library on the server" in answer.content.decode()
    assert as_("staff").get(reverse("readiness", args=[cast.club.slug, cast.green.pk])).status_code == 200


def test_the_site_starts_without_it():
    """Nothing loads the library before a page is set."""
    starts = (
        "import sys, django; django.setup(); import greens.config.urls, growin.urls;"
        "raise SystemExit('weasyprint' in sys.modules)"
    )
    environment = os.environ | {"DJANGO_SETTINGS_MODULE": "greens.config.settings"}
    assert subprocess.run([sys.executable, "-c", starts], cwd=ROOT, env=environment).returncode == 0
