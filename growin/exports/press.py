"""Sets pages as PDF: tagged, in our own type, from our own files and never from the network.

WeasyPrint needs the Pango library of the system, so it is loaded here and only when a page is set:
a site without it serves every other page.
"""

from collections.abc import Callable
from pathlib import Path
from threading import local
from types import ModuleType
from urllib.parse import unquote, urlsplit

from django.apps import apps
from PIL import ImageFile

PICTURE = "data:image/svg+xml;base64,"
VARIANT = "pdf/ua-1"


class PangoMissing(Exception):
    """The library that sets type is not on this machine."""


class Press:
    """Reads style sheets and type once, however often a page is tried.

    Raises
    ------
    PangoMissing
        Where the library is not on this machine.
    """

    def __init__(self, *sheets: str):
        self.library = library()
        self.fetch = ours(self.library)
        self.type = self.library.text.fonts.FontConfiguration()
        self.sheets = [self.sheet(name) for name in sheets]

    def sheet(self, name: str):
        """One of our style sheets by its name."""
        path = static_folder() / "css" / f"{name}.css"
        return self.library.CSS(filename=path, url_fetcher=self.fetch, font_config=self.type)

    def pages(self, html: str):
        """The document laid out, not yet written."""
        document = self.library.HTML(string=html, base_url=static_folder().as_uri(), url_fetcher=self.fetch)
        return document.render(stylesheets=self.sheets, font_config=self.type, pdf_variant=VARIANT)


class Presses(local):
    """Each thread has its own: what sets the type is not made for several at once."""

    def __init__(self):
        self.by_sheets: dict[tuple[str, ...], Press] = {}


_PRESSES = Presses()


def press(*sheets: str) -> Press:
    """That of this thread for these style sheets: reading sheets and type takes longer than a page.

    Raises PangoMissing as :class:`Press`.
    """
    if sheets not in _PRESSES.by_sheets:
        _PRESSES.by_sheets[sheets] = Press(*sheets)
    return _PRESSES.by_sheets[sheets]


def library() -> ModuleType:
    """WeasyPrint, loaded when it is first needed.

    Its remarks on rules that only browsers follow are not kept: our style sheets serve both. It lets
    pictures that break off pass for whole, in the whole process; photographs sent to us may not.
    """
    try:
        import weasyprint
    except OSError as missing:
        raise PangoMissing from missing
    weasyprint.LOGGER.setLevel("ERROR")
    ImageFile.LOAD_TRUNCATED_IMAGES = False
    return weasyprint


def static_folder() -> Path:
    return Path(apps.get_app_config("greens").path, "static", "greens").resolve()


def ours(weasyprint: ModuleType) -> Callable:
    """Reads type and style sheets of our own, and pictures carried in the page; refuses all else."""
    reads = weasyprint.urls.URLFetcher(allowed_protocols={"file", "data"})

    def fetch(url: str):
        if not is_ours(url):
            raise ValueError(f"Outside our own files: {url}")
        return reads.fetch(url)

    return fetch


def is_ours(url: str) -> bool:
    """Whether an address is a file of our static folder or a picture drawn by us."""
    parts = urlsplit(url)
    if parts.scheme == "file" and not parts.netloc:
        return Path(unquote(parts.path)).resolve().is_relative_to(static_folder())
    return url.startswith(PICTURE)
