"""The ground floor keeps to itself: the trade in numbers, explained, without site, files or clock."""

import ast
from pathlib import Path

import pytest

import growin.agronomy
from tests.house.sources import functions_of

ROOT = Path(growin.agronomy.__file__).parent
MODULES = sorted(ROOT.rglob("*.py"))
NAMES = [str(path.relative_to(ROOT)) for path in MODULES]
FILE_CALLS = {"open", "read_text", "read_bytes", "write_text", "write_bytes", "fdopen"}
FILE_READERS = {"read_csv", "read_json", "read_excel", "read_parquet", "loadtxt", "genfromtxt", "fromfile"}
CLOCK_CALLS = {"today", "now", "utcnow", "time_ns", "localtime", "gmtime", "monotonic", "perf_counter"}
NOT_ON_THIS_FLOOR = {
    "django",
    "greens",
    "celery",
    "redis",
    "matplotlib",
    "scipy",
    "os",
    "io",
    "pathlib",
    "time",
    "socket",
    "sqlite3",
    "subprocess",
    "shutil",
    "tempfile",
    "urllib",
    "requests",
}
FOR_THE_COMMAND_LINE = {"argparse", "json", "sys", "collections", "pathlib", "typing", "datetime", "growin"}


def tree(path: Path) -> ast.Module:
    return ast.parse(path.read_text("utf-8"))


def called(node: ast.Call) -> str:
    """Name of what is called, without what stands before the dot."""
    return node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")


def imported(node: ast.AST) -> set[str]:
    if isinstance(node, ast.Import):
        return {alias.name for alias in node.names}
    return {node.module or ""} if isinstance(node, ast.ImportFrom) and not node.level else set()


def public(body: list[ast.stmt]) -> list[ast.AST]:
    """Functions and classes of a module that others may use."""
    kinds = ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef
    return [node for node in body if isinstance(node, kinds) and not node.name.startswith("_")]


def with_members(body: list[ast.stmt]) -> list[ast.AST]:
    """What is public, methods and properties of classes too."""
    top = public(body)
    classes = [node for node in top if isinstance(node, ast.ClassDef)]
    return [*top, *(one for node in classes for one in with_members(node.body))]


@pytest.mark.parametrize("path", MODULES, ids=NAMES)
def test_everything_public_is_explained(path):
    module = tree(path)
    silent = [node.name for node in with_members(module.body) if not ast.get_docstring(node)]
    assert (bool(ast.get_docstring(module)) or not module.body, silent) == (True, [])


@pytest.mark.parametrize("path", MODULES, ids=NAMES)
def test_no_function_is_over_forty_lines(path):
    """The docstring, with its units and its source, does not count."""
    assert [one.name for one in functions_of(path) if one.lines > 40] == []


@pytest.mark.parametrize(
    "path", [path for path in MODULES if path.name != "__main__.py"], ids=lambda path: path.stem
)
def test_nothing_opens_a_file_or_asks_the_clock(path):
    calls = {called(node) for node in ast.walk(tree(path)) if isinstance(node, ast.Call)}
    assert calls & (FILE_CALLS | FILE_READERS | CLOCK_CALLS) == set()


@pytest.mark.parametrize(
    "path", [path for path in MODULES if path.name != "__main__.py"], ids=lambda path: path.stem
)
def test_nothing_comes_from_above_or_outside(path):
    names = set().union(*(imported(node) for node in ast.walk(tree(path))))
    above = {name for name in names if name.startswith("growin") and not name.startswith("growin.agronomy")}
    assert ({name for name in names if name.split(".")[0] in NOT_ON_THIS_FLOOR}, above) == (set(), set())


def test_the_command_line_too_needs_no_site():
    names = set().union(*(imported(node) for node in ast.walk(tree(ROOT / "__main__.py"))))
    assert {name.split(".")[0] for name in names} <= FOR_THE_COMMAND_LINE
