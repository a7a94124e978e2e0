"""A photograph or a voice note hung on what was kept before: once, by its content, for our own people."""

import wave
from dataclasses import replace
from io import BytesIO
from uuid import uuid4

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from greens.actions.readings import take_back
from greens.models import StoredFile
from greens.validators import attachment
from greens.validators.upload import NotKept
from tests import entries
from tests.greens.test_file import photograph
from tests.growin.ripe import read

pytestmark = [pytest.mark.django_db, pytest.mark.every_database]

AS_A_PROGRAM = {"Accept": "application/json"}


@pytest.fixture(autouse=True)
def media(settings, tmp_path):
    settings.MEDIA_ROOT = tmp_path


def spoken(seconds: float = 0.1) -> bytes:
    """Silence of that length as a WAV, written by the standard library."""
    out = BytesIO()
    with wave.open(out, "wb") as sound:
        sound.setparams((1, 2, 8000, 0, "NONE", ""))
        sound.writeframes(b"\0\0" * int(8000 * seconds))
    return out.getvalue()


def send(cast, client, of, content: bytes, name: str = "note.wav", headers=None, **more):
    said = {"of": of, "client_id": uuid4(), "file": SimpleUploadedFile(name, content), **more}
    return client.post(reverse("attach", args=[cast.club.slug]), said, headers=headers or {})


def test_a_voice_note_hangs_on_the_set_and_is_served_as_sound(cast, as_):
    row = read(cast, "rooting_depth", [62], cast.today)
    page = send(cast, as_("staff"), row.client_id, spoken())
    kept = StoredFile.objects.get()
    assert page.headers["Location"] == reverse("reading", args=[cast.club.slug, row.pk])
    assert (kept.kind, kept.reading_set, kept.green, kept.taken_on) == ("voice", row, cast.green, row.on)
    shown = as_("committee").get(page.headers["Location"]).content.decode()
    assert f'<audio controls preload="none" aria-labelledby="voice-{kept.pk}"' in shown
    answer = as_("committee").get(reverse("file", args=[cast.club.slug, kept.pk]))
    assert answer["Content-Type"] == "audio/wav"
    assert answer["X-Content-Type-Options"] == "nosniff"
    assert answer["Content-Disposition"].startswith("inline")
    assert b"".join(answer.streaming_content) == spoken()


def test_a_player_may_ask_for_a_part_of_a_voice_note(cast, as_):
    """RFC 9110, 14.4: first and last byte are counted from 0 and both belong to the part."""
    row = read(cast, "rooting_depth", [62], cast.today)
    send(cast, as_("staff"), row.client_id, spoken())
    place = reverse("file", args=[cast.club.slug, StoredFile.objects.get().pk])
    part = as_("staff").get(place, headers={"Range": "bytes=4-9"})
    whole = len(spoken())
    assert (part.status_code, part.content) == (206, spoken()[4:10])
    assert (part["Content-Range"], part["Content-Length"]) == (f"bytes 4-9/{whole}", "6")
    beyond = as_("staff").get(place, headers={"Range": f"bytes={whole}-"})
    assert (beyond.status_code, b"".join(beyond.streaming_content)) == (200, spoken())


def test_a_photograph_hangs_on_an_entry_and_comes_once_however_often_it_is_sent(cast, as_):
    entry = entries.logged(cast, details={"height_mm": 5.5})
    same, url = uuid4(), reverse("entry", args=[cast.club.slug, entry.pk])
    answers = [
        send(cast, as_("staff"), entry.client_id, photograph(), "a.jpg", AS_A_PROGRAM, client_id=same)
        for _ in range(2)
    ]
    assert [(one.status_code, one.json()) for one in answers] == [(200, {"state": "kept", "url": url})] * 2
    kept = StoredFile.objects.get()
    assert (kept.kind, kept.entry, kept.content_type) == ("photograph", entry, "image/jpeg")


def test_what_cannot_be_kept_is_refused_in_sentences_to_a_program_and_to_people(cast, as_):
    row = read(cast, "rooting_depth", [62], cast.today)
    refused = send(cast, as_("staff"), row.client_id, b"nothing", "x.txt", AS_A_PROGRAM)
    sentence = (
        "x.txt is not a photograph that can be read; JPEG, PNG and WebP can; "
        "voice notes may be WebM, Ogg, M4A, MP3 or WAV."
    )
    assert (refused.status_code, refused.json()) == (
        422,
        {"state": "refused", "errors": {"file": sentence}},
    )
    early = send(cast, as_("staff"), uuid4(), spoken(), headers=AS_A_PROGRAM).json()
    assert "is not kept yet: keep it first" in early["errors"]["file"]
    page = as_("staff").post(reverse("attach", args=[cast.club.slug]), {"of": "x"}, follow=True)
    assert "Choose a file." in page.content.decode()
    assert not StoredFile.objects.exists()


def test_nothing_hangs_on_what_was_taken_back_or_is_of_another_club(cast, as_):
    row = read(cast, "rooting_depth", [62], cast.today)
    theirs = send(cast, as_("outsider"), row.client_id, spoken())
    assert theirs.status_code == 404
    assert send(cast, as_("committee"), row.client_id, spoken()).status_code == 403
    take_back(reading_set=row, by=cast.staff)
    there = replace(cast, club=cast.outsider.club, green=cast.other_green)
    other = entries.logged(there, by=cast.outsider)
    unknown = send(cast, as_("staff"), other.client_id, spoken(), headers=AS_A_PROGRAM).json()
    assert "is not kept yet" in unknown["errors"]["file"]
    late = send(cast, as_("staff"), row.client_id, spoken(), headers=AS_A_PROGRAM).json()
    assert late["errors"] == {"file": f"“{row}” was taken back; nothing is hung on it any more."}
    assert not StoredFile.objects.exists()


HEADS = {
    "audio/webm": b"\x1a\x45\xdf\xa3\x9fB\x86\x81\x01B\xf7\x81\x01B\xf2\x81\x04B\xf3\x81\x08B\x82\x84webm",
    "audio/ogg": b"OggS\x00\x02" + b"\0" * 20 + b"\x01vorbis",
    "audio/mp4": b"\0\0\0\x1cftypM4A \0\0\0\0",
    "audio/wav": b"RIFF\x24\0\0\0WAVEfmt ",
    "audio/mpeg": b"\xff\xfb\x90\x64" + b"\0" * 20,
}


@pytest.mark.parametrize("kind", HEADS)
def test_a_voice_note_is_known_by_its_first_bytes(kind):
    """Signatures as RFC 8794, RFC 3533, ISO/IEC 14496-12, the RIFF print and ISO/IEC 11172-3 have them."""
    ready = attachment.prepare_attachment(SimpleUploadedFile("said.exe", HEADS[kind] + b"x"))
    assert (ready.content_type, ready.is_sound, ready.content) == (kind, True, HEADS[kind] + b"x")


def test_a_voice_note_without_end_is_refused():
    long = SimpleUploadedFile("said.wav", HEADS["audio/wav"] + b"\0" * attachment.VOICE_LIMIT_BYTES)
    with pytest.raises(NotKept, match="said.wav has 5 MB; a voice note may have at most 5 MB."):
        attachment.prepare_attachment(long)


def test_a_film_is_no_voice_note():
    film = SimpleUploadedFile("a.mov", b"\0\0\0\x14ftypqt  \0\0\0\0")
    with pytest.raises(NotKept):
        attachment.prepare_attachment(film)
