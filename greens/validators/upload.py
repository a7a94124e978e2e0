"""Files as they arrive: looked at by their content, never by what they call themselves.

Photographs are drawn anew as JPEG, so that neither location nor anything else travels with
them; their pixels are counted before any is decoded. Documents are PDF or XLSX only.
"""

import struct
import zipfile
import zlib
from dataclasses import dataclass
from io import BytesIO

from django.conf import settings
from PIL import Image, ImageOps

from greens.choices import FileKind

LONGEST_SIDE, SMALL_SIDE = 2560, 720
PDF, XLSX = "application/pdf", "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
BOMBS = (Image.DecompressionBombError, Image.DecompressionBombWarning)
BROKEN = (
    ArithmeticError,
    EOFError,
    LookupError,
    MemoryError,
    OSError,
    SyntaxError,
    TypeError,
    ValueError,
    struct.error,
    zlib.error,
)
FORMATS = ["JPEG", "PNG", "WEBP"]


class NotKept(ValueError):
    """A file that cannot be kept; the message is for people."""


@dataclass(frozen=True)
class Prepared:
    """A file ready to be stored: its bytes, and for a photograph a small copy."""

    name: str
    content_type: str
    content: bytes
    small: bytes = b""

    @property
    def is_sound(self) -> bool:
        return self.content_type.startswith("audio/")

    @property
    def size_bytes(self) -> int:
        return len(self.content) + len(self.small)


def prepare(upload, kind: FileKind) -> Prepared:
    """The file as it will be kept. Raises NotKept."""
    refuse_too_large(upload)
    return prepare_photograph(upload) if kind == FileKind.PHOTOGRAPH else prepare_document(upload)


def refuse_too_large(upload) -> None:
    limit = settings.UPLOAD_LIMIT_BYTES
    if upload.size > limit:
        raise NotKept(
            f"{named(upload)} has {megabytes(upload.size)}; a file may have at most {megabytes(limit)}."
        )


def prepare_photograph(upload) -> Prepared:
    """A JPEG without anything but its pixels, upright, and a small copy."""
    try:
        picture = opened(upload)
        picture.draft("RGB", (LONGEST_SIDE, LONGEST_SIDE))
        upright = upright_within(picture, LONGEST_SIDE)
    except BOMBS:
        raise NotKept(too_many_pixels(upload)) from None
    except BROKEN:
        raise NotKept(
            f"{named(upload)} is not a photograph that can be read; JPEG, PNG and WebP can."
        ) from None
    name = f"{named(upload).rsplit('.', 1)[0]}.jpg"
    return Prepared(name, "image/jpeg", as_jpeg(upright), as_jpeg(upright_within(upright, SMALL_SIDE)))


def opened(upload) -> Image.Image:
    """The picture's header only; refused when it announces too many pixels."""
    upload.seek(0)
    picture = Image.open(upload, formats=FORMATS)
    if picture.width * picture.height > settings.PHOTOGRAPH_LIMIT_PIXELS:
        raise Image.DecompressionBombError
    return picture


def upright_within(picture: Image.Image, side: int) -> Image.Image:
    """Turned as it was held and shrunk before anything else, so that memory stays small."""
    turned = ImageOps.exif_transpose(picture)
    if turned.mode in {"P", "PA", "1"}:
        turned = turned.convert("RGBA")
    turned.thumbnail((side, side))
    return plain(turned)


def plain(picture: Image.Image) -> Image.Image:
    """The pixels alone, on paper white where they were transparent."""
    if picture.mode in {"RGBA", "LA", "PA"} or "transparency" in picture.info:
        over = picture.convert("RGBA")
        sheet = Image.new("RGBA", over.size, "white")
        return Image.alpha_composite(sheet, over).convert("RGB")
    return picture.convert("RGB")


def as_jpeg(picture: Image.Image) -> bytes:
    bare, out = picture.copy(), BytesIO()
    bare.info.clear()
    bare.save(out, "JPEG", quality=82, optimize=True, progressive=True)
    return out.getvalue()


def prepare_document(upload) -> Prepared:
    upload.seek(0)
    content = upload.read()
    if content.startswith(b"%PDF-"):
        return Prepared(ending(upload, "pdf"), PDF, content)
    if is_workbook(content):
        return Prepared(ending(upload, "xlsx"), XLSX, content)
    raise NotKept(f"{named(upload)} is neither a PDF nor an XLSX workbook; only these are kept as documents.")


def is_workbook(content: bytes) -> bool:
    """An XLSX workbook by its parts, and one without macros."""
    try:
        with zipfile.ZipFile(BytesIO(content)) as bundle:
            parts = set(bundle.namelist())
    except (zipfile.BadZipFile, ValueError, OSError, NotImplementedError):
        return False
    return {"[Content_Types].xml", "xl/workbook.xml"} <= parts and "xl/vbaProject.bin" not in parts


def ending(upload, suffix: str) -> str:
    return f"{named(upload).rsplit('.', 1)[0]}.{suffix}"


def named(upload) -> str:
    """The upload's own name, short and without odd signs."""
    kept = "".join(sign for sign in (upload.name or "file") if sign.isprintable() and sign not in '\\/"<>')
    return kept[-90:].strip() or "file"


def too_many_pixels(upload) -> str:
    limit = settings.PHOTOGRAPH_LIMIT_PIXELS / 1_000_000
    return (
        f"{named(upload)} has more pixels than can be kept; a photograph may have up to {limit:g} megapixels."
    )


def megabytes(size: int) -> str:
    return f"{size / 1_000_000:.0f} MB" if size >= 1_000_000 else f"{size / 1000:.0f} kB"
