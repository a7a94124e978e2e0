"""What is hung on an entry or a set after it was kept: a photograph, or a voice note of a phone."""

from collections.abc import Callable

from greens.validators.upload import NotKept, Prepared, megabytes, named, prepare_photograph, refuse_too_large

VOICE_LIMIT_BYTES = 5_000_000
MP4_BRANDS = {b"M4A ", b"M4B ", b"mp41", b"mp42", b"isom", b"iso2", b"iso4", b"iso5", b"iso6", b"dash"}


def is_mp3(head: bytes) -> bool:
    """A tag, or the head of a frame of layer III with a rate that exists (ISO/IEC 11172-3)."""
    if head.startswith(b"ID3"):
        return True
    is_frame = len(head) > 2 and head[0] == 0xFF and head[1] & 0xE6 == 0xE2
    return is_frame and head[2] >> 4 not in (0, 15) and head[2] & 0x0C != 0x0C


def is_webm(head: bytes) -> bool:
    """EBML whose kind of document is webm (RFC 8794)."""
    return head.startswith(b"\x1a\x45\xdf\xa3") and b"webm" in head


#: Kinds of sound by their first bytes: what they are served as, their ending, how they are known.
SOUNDS: tuple[tuple[str, str, Callable[[bytes], bool]], ...] = (
    ("audio/webm", "webm", is_webm),
    ("audio/ogg", "ogg", lambda head: head.startswith(b"OggS")),
    ("audio/mp4", "m4a", lambda head: head[4:8] == b"ftyp" and head[8:12] in MP4_BRANDS),
    ("audio/wav", "wav", lambda head: head[:4] == b"RIFF" and head[8:12] == b"WAVE"),
    ("audio/mpeg", "mp3", is_mp3),
)


def prepare_attachment(upload) -> Prepared:
    """A photograph drawn anew, or a voice note as it came. Raises NotKept."""
    refuse_too_large(upload)
    upload.seek(0)
    head = upload.read(64)
    for content_type, ending, is_one in SOUNDS:
        if is_one(head):
            return prepare_voice(upload, content_type, ending)
    try:
        return prepare_photograph(upload)
    except NotKept as refused:
        sounds = "voice notes may be WebM, Ogg, M4A, MP3 or WAV"
        raise NotKept(f"{str(refused).removesuffix('.')}; {sounds}.") from None


def prepare_voice(upload, content_type: str, ending: str) -> Prepared:
    if upload.size > VOICE_LIMIT_BYTES:
        raise NotKept(
            f"{named(upload)} has {megabytes(upload.size)}; "
            f"a voice note may have at most {megabytes(VOICE_LIMIT_BYTES)}."
        )
    upload.seek(0)
    return Prepared(f"{named(upload).rsplit('.', 1)[0]}.{ending}", content_type, upload.read())
