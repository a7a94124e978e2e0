"""Short functions, short files, no stray template: the shape the house keeps."""

import ast
import re
from statistics import median

from tests.house.sources import (
    ROOT,
    functions,
    line_count,
    python_files,
    shown,
    templates,
    texts,
    tree,
)

SITE = ("greens", "growin")
MISLEADING = {"utils", "common", "core", "helpers", "services", "manager", "logging", "calendar"}
SPEAKS_TO_THE_DATABASE = {
    *("objects", "filter", "exclude", "annotate", "aggregate", "order_by", "select_related"),
    *("prefetch_related", "values_list", "bulk_create", "get_or_create", "update_or_create"),
}
DRAWN_BY_THE_FORM_PACK = "fieldbook/"
INLINE = re.compile(r"<style|\sstyle=|\son[a-z]+=[\"']|javascript:|<script(?![^>]*\ssrc=)", re.IGNORECASE)
JSON_ISLAND = re.compile(r"<script[^>]*type=[\"']application/json[\"']", re.IGNORECASE)
NAMES_A_TEMPLATE = re.compile(r"[\"']([\w/.{}-]+\.(?:html|txt|xml|svg|js|ics))[\"']")


def test_no_function_is_long():
    assert [str(one) for one in functions(*SITE, "tests") if one.lines > 40] == []


def test_most_functions_are_very_short():
    lengths = sorted(one.lines for one in functions(*SITE))
    of_95_percent = lengths[int(0.95 * len(lengths))]
    assert (median(lengths) <= 6, of_95_percent <= 20) == (True, True), (median(lengths), of_95_percent)


def limit(path) -> int:
    """The ground floor carries long docstrings with its sources."""
    return 400 if "agronomy" in path.parts else 300


def test_no_file_grows_into_a_heap():
    long = {shown(path): line_count(path) for path in python_files(*SITE, "tests")}
    assert {path: lines for path, lines in long.items() if lines > limit(ROOT / path)} == {}


def test_most_files_of_the_site_are_short():
    lengths = sorted(line_count(path) for path in python_files(*SITE))
    assert lengths[int(0.95 * len(lengths))] <= 300


def test_no_template_is_long():
    assert {shown(path) for path in templates() if line_count(path) > 150} == set()


def test_no_file_name_misleads():
    assert [shown(path) for path in python_files(*SITE, "tests") if path.stem in MISLEADING] == [
        "tests/services.py"
    ]


def test_pages_hold_no_query():
    """A page is four moves: door, form, action, answer."""
    views = python_files("greens/views", "growin/views")
    spoken = {
        shown(path): {node.attr for node in ast.walk(tree(path)) if isinstance(node, ast.Attribute)}
        & SPEAKS_TO_THE_DATABASE
        for path in views
    }
    assert {path: words for path, words in spoken.items() if words} == {}


def test_no_signals():
    """What happens after a write stands where the write stands."""
    assert [
        shown(path) for path in python_files(*SITE) if "django.db.models.signals" in path.read_text()
    ] == []


def test_nothing_is_styled_or_scripted_inside_a_page():
    inline = {
        shown(path): INLINE.findall(JSON_ISLAND.sub("<json", path.read_text()))
        for path in templates()
        if path.suffix == ".html"
    }
    assert {path: found for path, found in inline.items() if found} == {}


def named_templates() -> list[str]:
    """Every name of a template that a file of ours speaks of, with ``{…}`` for what is filled in."""
    sources = [path for path in texts() if path.suffix in {".py", ".html", ".txt", ".svg", ".js"}]
    return [name for path in sources for name in NAMES_A_TEMPLATE.findall(path.read_text())]


def test_every_template_is_used():
    patterns = [re.sub(r"\\{[^}]*\\}", "[^/]+", re.escape(name)) for name in set(named_templates())]
    used = re.compile("|".join(patterns))
    names = [path.relative_to(ROOT / "templates").as_posix() for path in templates()]
    ours = [name for name in names if not name.startswith(DRAWN_BY_THE_FORM_PACK)]
    assert [name for name in ours if not used.fullmatch(name)] == []
