"""A PDF as a reader's software finds it: pages, text, tags."""

import re
import sys
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cached_property
from io import BytesIO

from django.urls import reverse
from pypdf import PdfReader
from pypdf.generic import ContentStream

from growin.evidence.statement import Statement
from growin.exports.press import Presses
from growin.exports.statement import statement_pdf

PAINTS = {b"f", b"f*", b"S", b"s", b"B", b"b", b"Tj", b"TJ", b"Do", b"sh"}


@dataclass(frozen=True)
class Paper:
    """A PDF as a reader finds it."""

    content: bytes

    @cached_property
    def reader(self) -> PdfReader:
        return PdfReader(BytesIO(self.content))

    @cached_property
    def pages(self) -> list[str]:
        return [in_one_line(page.extract_text()) for page in self.reader.pages]

    @property
    def text(self) -> str:
        return " ".join(self.pages)

    @property
    def size_mm(self) -> tuple[int, int]:
        return tuple(round(float(side) / 72 * 25.4) for side in self.reader.pages[0].mediabox[2:])

    @property
    def root(self) -> dict:
        return self.reader.trailer["/Root"]

    @property
    def tags(self) -> list[dict]:
        """Every element of the tree of tags."""
        found, ahead = [], [self.root["/StructTreeRoot"]]
        while ahead:
            one = ahead.pop(0).get_object()
            if hasattr(one, "get"):
                kids = one.get("/K", [])
                ahead = [*(kids if isinstance(kids, list) else [kids]), *ahead]
                found.append(one)
            ahead = [kid for kid in ahead if hasattr(kid.get_object(), "get")]
        return [one for one in found if "/S" in one]

    @property
    def unmarked(self) -> set[bytes]:
        """What is painted outside of every tag and is no artefact."""
        depth, found = 0, set()
        for page in self.reader.pages:
            for _, verb in ContentStream(page.get_contents(), self.reader).operations:
                depth += (verb in (b"BDC", b"BMC")) - (verb == b"EMC")
                found |= {verb} & PAINTS if not depth else set()
        return found


def in_one_line(text: str) -> str:
    return re.sub(r"\s+", " ", text)


def printed(cast, client, **query) -> Paper:
    answer = client.get(reverse("statement", args=[cast.club.slug, cast.green.pk]), query)
    assert (answer.status_code, answer["Content-Type"]) == (200, "application/pdf")
    return Paper(answer.content)


def set_from(statement: Statement) -> Paper:
    return Paper(statement_pdf(statement))


@contextmanager
def without_pango(monkeypatch):
    """As on a machine that cannot load the library; weasyprint is loaded anew, and anew again afterwards."""
    with monkeypatch.context() as patch:
        for name in weasyprint_loaded():
            patch.delitem(sys.modules, name)
        patch.setattr("cffi.api.FFI.dlopen", no_library)
        patch.setattr("growin.exports.press._PRESSES", Presses())
        yield
        for name in weasyprint_loaded():
            del sys.modules[name]


def weasyprint_loaded() -> list[str]:
    return [one for one in sys.modules if one.partition(".")[0] == "weasyprint"]


def no_library(*names):
    raise OSError("cannot load library")
