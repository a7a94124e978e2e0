"""Files of clubs on a shelf: the same whether it stands in a folder or in a bucket of many hosts."""

from urllib.parse import quote

import pytest
from django.core.exceptions import ImproperlyConfigured
from django.urls import reverse

from greens.config.shelf import IN_A_FOLDER, in_a_bucket
from greens.models import StoredFile
from greens.queries import files
from greens.shelf import Place, everything
from tests.bucket_server import BUCKET, KEY, SECRET, serving
from tests.greens.test_file import sent

PDF = b"%PDF-1.7\n"


@pytest.fixture
def bucket(settings):
    with serving() as (bucket, port):
        url = f"s3+http://{KEY}:{quote(SECRET, safe='')}@127.0.0.1:{port}/{BUCKET}"
        settings.STORAGES = settings.STORAGES | {"default": in_a_bucket(url)}
        yield bucket


@pytest.fixture
def folder(settings, tmp_path):
    settings.MEDIA_ROOT = tmp_path


@pytest.fixture(params=["folder", "bucket"])
def shelf(request):
    return request.getfixturevalue(request.param)


def test_what_is_laid_on_the_shelf_is_found_replaced_listed_and_taken_away(shelf):
    one, other = Place("1/one"), Place("2/other.csv")
    one.write_bytes(b"first")
    one.write_bytes(b"second")
    other.write_bytes(PDF)
    with one.open() as kept:
        kept.seek(3)
        assert kept.read() == b"ond"
    assert (one.read_bytes(), one.exists(), list(everything())) == (b"second", True, [one, other])
    one.unlink()
    one.unlink()
    assert (one.exists(), list(everything())) == (False, [other])
    with pytest.raises(FileNotFoundError):
        one.read_bytes()


def test_an_empty_shelf_holds_nothing(shelf):
    assert list(everything()) == []


@pytest.mark.django_db
def test_a_file_in_a_bucket_is_served_through_the_clubs_door_alone(bucket, cast, as_):
    sent(cast, as_("head"), "document", "plan.pdf", PDF)
    row = StoredFile.objects.get()
    assert bucket.objects == {files.place_of(row).name: PDF}
    address = reverse("file", args=[cast.club.slug, row.pk])
    answer = as_("staff").get(address)
    assert (answer.getvalue(), answer.headers["Content-Length"]) == (PDF, "9")
    assert answer.headers["Content-Disposition"] == 'attachment; filename="plan.pdf"'
    assert "sandbox" in answer.headers["Content-Security-Policy"]
    assert as_("outsider").get(address).status_code == 404
    bucket.objects.clear()
    assert as_("staff").get(address).status_code == 404


def test_without_a_bucket_files_lie_in_the_folder(settings):
    assert settings.STORAGES["default"] == IN_A_FOLDER


@pytest.mark.parametrize(
    "url", ["https://a:b@host/bucket", "s3://host/bucket", "s3://a:b@host", "s3://a:hidden@/bucket"]
)
def test_a_bucket_that_cannot_be_one_is_refused_without_its_secret(url):
    with pytest.raises(ImproperlyConfigured) as refused:
        in_a_bucket(url)
    assert str(refused.value).startswith("GREENS_FILES_URL should look like s3://KEY:SECRET@")
    assert "hidden" not in str(refused.value)
