"""Photographs and documents: drawn anew, counted, inert, behind the club's door."""

import struct
import zipfile
import zlib
from io import BytesIO

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse
from PIL import Image

from greens.models import StoredFile
from greens.queries import files

pytestmark = pytest.mark.django_db

GPS, ORIENTATION = 0x8825, 0x0112


@pytest.fixture(autouse=True)
def media(settings, tmp_path):
    settings.MEDIA_ROOT = tmp_path
    return tmp_path


def photograph(size=(60, 40)) -> bytes:
    """A picture, white on the left and black on the right, with location and an orientation."""
    picture, out = Image.new("RGB", size, "white"), BytesIO()
    picture.paste("black", (size[0] // 2, 0, *size))
    tags = Image.Exif()
    tags[ORIENTATION] = 6
    tags.get_ifd(GPS)[2] = (54.0, 30.0, 0.0)
    picture.save(out, "JPEG", exif=tags)
    return out.getvalue()


def png_of(width: int, height: int) -> bytes:
    """A PNG of a few bytes whose header announces ``width`` × ``height`` pixels."""

    def chunk(kind: bytes, body: bytes) -> bytes:
        return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))

    header = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", header)
        + chunk(b"IDAT", zlib.compress(b"\0" * 64))
        + chunk(b"IEND", b"")
    )


def workbook(*more: str) -> bytes:
    out = BytesIO()
    with zipfile.ZipFile(out, "w") as bundle:
        for part in ("[Content_Types].xml", "xl/workbook.xml", *more):
            bundle.writestr(zipfile.ZipInfo(part), "<x/>")  # the same bytes at any time of day
    return out.getvalue()


def sent(cast, client, kind: str, name: str, content: bytes, **form):
    upload = SimpleUploadedFile(name, content)
    address = reverse(f"{kind}_new", args=[cast.club.slug, cast.green.pk])
    return client.post(address, {"upload": upload, "taken_on": "2026-04-15", **form})


def opened(row: StoredFile, small: bool = False) -> Image.Image:
    return Image.open(BytesIO(files.place_of(row, small).read_bytes()))


def test_a_photograph_loses_its_location_and_stands_upright(cast, as_):
    sent(cast, as_("head"), "photograph", "IMG_1.jpg", photograph(), caption="From the tee")
    row = StoredFile.objects.get()
    kept, small = opened(row), opened(row, small=True)
    assert (dict(kept.getexif()), kept.size, row.content_type) == ({}, (40, 60), "image/jpeg")
    assert b"Exif" not in files.place_of(row).read_bytes()
    assert small.size == (40, 60)


def test_a_transparent_png_becomes_a_photograph_on_white(cast, as_):
    out = BytesIO()
    Image.new("RGBA", (8, 8), (0, 0, 0, 0)).save(out, "PNG")
    sent(cast, as_("head"), "photograph", "plan.png", out.getvalue())
    assert opened(StoredFile.objects.get()).getpixel((4, 4)) == (255, 255, 255)


def test_a_large_photograph_is_kept_at_a_size_for_screens(cast, as_):
    out = BytesIO()
    Image.new("L", (6000, 3000), "gray").save(out, "PNG")
    sent(cast, as_("head"), "photograph", "wide.png", out.getvalue())
    row = StoredFile.objects.get()
    assert (opened(row).size, opened(row, small=True).size) == ((2560, 1280), (720, 360))


def test_bytes_lie_under_a_random_key_and_not_under_their_name(cast, as_, media):
    sent(cast, as_("head"), "document", "../../etc/plan.pdf", b"%PDF-1.7\n")
    row = StoredFile.objects.get()
    assert (len(row.key), row.name) == (64, "plan.pdf")
    assert (media / str(cast.club.pk) / row.key).read_bytes() == b"%PDF-1.7\n"


@pytest.mark.parametrize(
    ("kind", "name", "content", "sentence"),
    [
        ("photograph", "bomb.png", png_of(32_000, 32_000), "bomb.png has more pixels than can be kept"),
        ("photograph", "wide.png", png_of(10_000, 9_500), "up to 60 megapixels"),
        ("photograph", "torn.jpg", photograph()[:300], "is not a photograph that can be read"),
        ("photograph", "page.jpg", b"<html><script>", "is not a photograph that can be read"),
        ("photograph", "short.png", png_of(500, 500), "is not a photograph that can be read"),
        ("document", "page.pdf", b"<html><script>", "neither a PDF nor an XLSX"),
        ("document", "macros.xlsx", workbook("xl/vbaProject.bin"), "neither a PDF nor an XLSX"),
        ("document", "plain.xlsx", b"PK\x03\x04 torn", "neither a PDF nor an XLSX"),
        ("document", "none.pdf", b"", "This file is empty"),
    ],
)
def test_files_are_judged_by_their_content(cast, as_, kind, name, content, sentence):
    page = sent(cast, as_("head"), kind, name, content)
    assert page.status_code == 200
    assert sentence in page.content.decode()
    assert not StoredFile.objects.exists()


def test_fifty_megabytes_are_too_many(cast, as_):
    page = sent(cast, as_("head"), "photograph", "huge.jpg", b"\xff" * 50_000_000)
    assert "huge.jpg has 50 MB; a file may have at most 20 MB." in page.content.decode()
    assert not StoredFile.objects.exists()


def test_a_club_keeps_to_its_quota(cast, as_, settings):
    settings.CLUB_QUOTA_BYTES = 100
    page = sent(cast, as_("head"), "document", "plan.pdf", b"%PDF-1.7" + b" " * 200)
    assert "Remove files that are no longer needed" in page.content.decode()
    assert not StoredFile.objects.exists()


@pytest.mark.parametrize("taken_on", ["2026-04-17", "yesterday"])
def test_a_photograph_is_not_from_the_future(cast, as_, taken_on):
    page = sent(cast, as_("head"), "photograph", "a.jpg", photograph(), taken_on=taken_on)
    assert page.status_code == 200
    assert not StoredFile.objects.exists()


def test_a_document_comes_back_to_be_saved_and_runs_nothing(cast, as_):
    sent(cast, as_("head"), "document", "plan.xlsx", workbook())
    row = StoredFile.objects.get()
    answer = as_("committee").get(reverse("file", args=[cast.club.slug, row.pk]))
    assert b"".join(answer.streaming_content) == workbook()
    assert answer["Content-Disposition"] == 'attachment; filename="plan.xlsx"'
    assert answer["X-Content-Type-Options"] == "nosniff"
    assert set(answer["Content-Security-Policy"].split("; ")) == {"default-src 'none'", "sandbox"}


def test_a_file_stays_behind_its_clubs_door(cast, as_, client):
    sent(cast, as_("head"), "photograph", "a.jpg", photograph())
    row = StoredFile.objects.get()
    for name in ("file", "file_small", "file_remove"):
        assert as_("outsider").get(reverse(name, args=[cast.club.slug, row.pk])).status_code == 404
        theirs = reverse(name, args=[cast.outsider.club.slug, row.pk])
        assert as_("outsider").get(theirs).status_code == 404
        assert client.get(reverse(name, args=[cast.club.slug, row.pk])).status_code == 302
    assert as_("staff").post(reverse("file_remove", args=[cast.club.slug, row.pk])).status_code == 403


def test_a_removed_file_is_gone_with_its_bytes(cast, as_, django_capture_on_commit_callbacks):
    sent(cast, as_("head"), "photograph", "a.jpg", photograph())
    row = StoredFile.objects.get()
    with django_capture_on_commit_callbacks(execute=True):
        as_("head").post(reverse("file_remove", args=[cast.club.slug, row.pk]))
    assert not StoredFile.objects.exists()
    assert not files.place_of(row).exists()
    assert not files.place_of(row, small=True).exists()
