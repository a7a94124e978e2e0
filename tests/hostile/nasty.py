"""What is sent: values, files, heads and whole bodies that no page asked for."""

import json
import struct
import zlib
from collections.abc import Callable
from io import BytesIO
from random import Random
from urllib.parse import quote_from_bytes, urlencode
from zipfile import ZIP_DEFLATED, ZipFile

from PIL import Image

from tests.house.two_clubs import OURS_FROM, THEIRS_FROM

VALUES = (
    *("", " ", "\0", "a\0b", "0", "-1", "−5"),
    *("1_000", "0x10", "1e400", "-1e400", "NaN", "-Infinity", "9" * 18, "9" * 19),
    *("9" * 400, "0." + "3" * 300, "1,5", "1.2.3", "１２", "٣٤", "½"),
    *("²", "Ⅷ", "true", "null", "None", "[]", "{}", "[[1,2]]"),
    *("0000-00-00", "9999-12-31", "0001-01-01", "2026-02-30"),
    *("2026-04-16T25:00", "24:61", "2026-W99", "-2026-01-01"),
    *("<script>x</script>", "{{ 7 }}", "%s%n"),
    *("' OR 1=1 --", "../../../etc/passwd", "//elsewhere.example/", "\\\\elsewhere"),
    *("javascript:x", "front", "sign_out", "💣" * 40),
    *("\u202e\u200b", "e\u0301" * 50, "x" * 20_000, "a\r\nSet-Cookie: b=c"),
    *("00000000-0000-0000-0000-000000000000", "{00000000-0000-0000-0000-00000000000g}", "=1+1"),
    *("all", "-", "on"),
    *(str(start + number) for start in (OURS_FROM, THEIRS_FROM) for number in (0, 1, 2, 3, 7)),
    *(f"{THEIRS_FROM + 1}:feed-zwin-water", f"{OURS_FROM + 1}:", ":", f"{OURS_FROM + 1}:feed-starter"),
)  # fmt: skip
#: Bytes that are no UTF-8, in the places of a value.
RAW = (b"\xff\xfe", b"\xed\xa0\x80", b"\xc0\x80", b"%", b"%zz", b"\xf4\x90\x80\x80")
CHARSETS = ("utf-7", "utf-16", "none-such", "cp037", "idna", "")


def jpeg() -> bytes:
    out = BytesIO()
    Image.new("RGB", (80, 60), "tan").save(out, "JPEG")
    return out.getvalue()


def vast_png() -> bytes:
    """A head that promises 60,000 × 60,000 pixels."""
    head = b"IHDR" + struct.pack(">IIBBBBB", 60_000, 60_000, 8, 2, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + struct.pack(">I", 13) + head + struct.pack(">I", zlib.crc32(head))


def swollen_workbook() -> bytes:
    """A ZIP that unpacks to a thousand times its size."""
    out = BytesIO()
    with ZipFile(out, "w", ZIP_DEFLATED) as zipped:
        zipped.writestr("[Content_Types].xml", b"<Types/>")
        zipped.writestr("xl/workbook.xml", b" " * 3_000_000)
    return out.getvalue()


def files() -> list[tuple[str, bytes]]:
    picture = jpeg()
    return [
        ("cut.jpg", picture[:300]),
        ("cut.jpg", picture[: len(picture) // 2]),
        ("none.jpg", b""),
        ("vast.png", vast_png()),
        ("x.svg", b"<svg xmlns='http://www.w3.org/2000/svg'><script>1</script></svg>"),
        ("book.xlsx", swollen_workbook()),
        ("book.xlsx", b"PK\x03\x04" + b"\0" * 40),
        ("book.csv", b"Date,Green\n\0\xff\xfe,\n" * 40),
        ("book.csv", b'"' * 5_000),
        (
            "book.csv",
            ("Date,Green,Work,Height\n16/03/2026,Another green,Cut,8\n" + "é," * 900).encode("latin-1"),
        ),
        ("sheet.pdf", b"%PDF-1.7\n" + b"\0" * 30),
        ("a\0b/../../c.jpg", picture),
        ("note.wav", b"RIFF\xff\xff\xff\xffWAVEfmt "),
    ]


FILES = files()
HEADS = (
    {"X-Pocket": "later"},
    {"X-Pocket": "now", "X-Pocket-Id": "x", "X-Pocket-Member": "y"},
    {"X-Pocket": "later", "X-Pocket-Id": "0" * 32, "X-Pocket-Member": str(THEIRS_FROM + 1)},
    {
        "X-Pocket": "later",
        "X-Pocket-Id": "1" * 32,
        "X-Pocket-Member": str(OURS_FROM + 1),
        "X-Pocket-Kept": "0001-01-01T00:00Z",
    },
    {"X-Pocket": "later", "X-Pocket-Id": "2" * 32, "X-Pocket-Member": "9" * 400},
    {
        "X-Pocket": "later",
        "X-Pocket-Id": "3" * 32,
        "X-Pocket-Member": str(OURS_FROM + 1),
        "X-Pocket-Clock": "9999-12-31T23:59:59+00:00",
    },
    {"Accept": "application/json;q=x, */*;q=9"},
    {"Authorization": "Bearer " + "x" * 5_000},
    {"Authorization": "Basic ÿ"},
    {"Range": "bytes=9-1,,-"},
    {"Range": "bytes=" + "9" * 400 + "-"},
    {"If-None-Match": '"' * 50},
    {"If-Modified-Since": "Thu, 99 Foo 0000"},
    {"X-Forwarded-For": "::1%x, \0"},
    {"Referer": "http://[::1"},
    {"Cookie": "sessionid=\0; csrftoken=" + "x" * 4_000 + "; known_here=a:b:c"},
    {"HX-Request": "true"},
)


def mutated(body: dict[str, list[str]], rng: Random) -> dict[str, list[str]]:
    """A form with one to four of its fields wrong: another value, several, or none."""
    spoilt = {name: list(values) for name, values in body.items()}
    for name in rng.sample(sorted(spoilt), min(len(spoilt), rng.randint(1, 4))):
        spoilt[name] = [[rng.choice(VALUES)], [rng.choice(VALUES) for _ in range(rng.randint(2, 40))], []][
            rng.choice((0, 0, 0, 1, 2))
        ]
    return spoilt


def as_form(body, rng) -> tuple[bytes, str]:
    return urlencode(body, doseq=True).encode(), "application/x-www-form-urlencoded"


def as_raw(body, rng) -> tuple[bytes, str]:
    """Bytes that are no text, in a charset that may be none."""
    pairs = [f"{name}=".encode() + rng.choice(RAW) for name in body] + [b"&&==&=x"]
    return b"&".join(pairs), f"application/x-www-form-urlencoded; charset={rng.choice(CHARSETS)}"


def as_escaped(body, rng) -> tuple[bytes, str]:
    pairs = [f"{name}={quote_from_bytes(rng.choice(RAW))}".encode() for name in body]
    return b"&".join(pairs), "application/x-www-form-urlencoded"


def as_json(body, rng) -> tuple[bytes, str]:
    return json.dumps(body).encode()[: rng.choice((None, -3))], "application/json"


def as_parts(body, rng) -> tuple[bytes, str]:
    """Parts with a file in a field or two; sometimes cut off."""
    edge, out = b"edge", b""
    for name, values in body.items():
        for value in values:
            out += b'--edge\r\nContent-Disposition: form-data; name="' + name.encode() + b'"\r\n\r\n'
            out += value.encode() + b"\r\n"
    for name in rng.sample(["file", "photographs", "sheet", *sorted(body)], 2):
        called, content = rng.choice(FILES)
        head = f'--edge\r\nContent-Disposition: form-data; name="{name}"; filename="{called}"\r\n'
        out += (
            head.encode() + b"Content-Type: " + rng.choice((b"image/jpeg", b"text/csv", b"x")) + b"\r\n\r\n"
        )
        out += content + b"\r\n"
    out += b"--" + edge + b"--\r\n"
    return out[: rng.choice((None, None, None, -20, len(out) // 2))], "multipart/form-data; boundary=edge"


def as_no_parts(body, rng) -> tuple[bytes, str]:
    return b"--x\r\n\r\n", f"multipart/form-data{rng.choice(('', '; boundary=', '; boundary=' + 'x' * 300))}"


def as_too_much(body, rng) -> tuple[bytes, str]:
    many = "&".join(f"a{number}=1" for number in range(4_500))
    return rng.choice((many.encode(), b"note=" + b"x" * 2_600_000)), "application/x-www-form-urlencoded"


WAYS: tuple[tuple[int, Callable], ...] = (
    *((50, as_form), (25, as_parts), (6, as_raw), (6, as_escaped), (4, as_json)),
    *((2, as_no_parts), (1, as_too_much)),
)  # fmt: skip


def sent(body: dict[str, list[str]], rng: Random) -> tuple[bytes, str]:
    """The bytes of a request and what they claim to be."""
    way = rng.choices([one for _, one in WAYS], [weight for weight, _ in WAYS])[0]
    return way(mutated(body, rng), rng)
