"""The house's order: what stands above may import what stands below, never up."""

import ast
import subprocess
import sys
import tomllib
from collections.abc import Iterator

from tests.house.sources import ROOT, python_files, shown, tree

GROUND_FLOOR = python_files("growin/agronomy")
GROUND_FLOOR_MAY_IMPORT = sys.stdlib_module_names | {"numpy", "pandas", "growin"}
HEAVY = {"matplotlib", "weasyprint"}
READS_FILES = {"open", "read_text", "read_bytes", "read_csv", "read_json", "write_text", "write_bytes"}
READS_THE_CLOCK = {("date", "today"), ("datetime", "now"), ("datetime", "today"), ("datetime", "utcnow")}


def contract(name: str) -> dict:
    settings = tomllib.loads((ROOT / "pyproject.toml").read_text())
    return next(one for one in settings["tool"]["importlinter"]["contracts"] if one["id"] == name)


def places() -> set[str]:
    """Every module that has a place in the house, optional ones too."""
    lines = contract("house")["layers"]
    return {module.strip(" ()") for line in lines for module in line.split(":")}


def rooms() -> set[str]:
    """Every module and package that stands directly in one of the two apps."""
    inside = [path for app in ("greens", "growin") for path in (ROOT / app).iterdir()]
    modules = {path for path in inside if path.suffix == ".py" and path.stem != "__init__"}
    packages = {path for path in inside if (path / "__init__.py").exists()}
    return {f"{path.parent.name}.{path.stem}" for path in modules | packages}


def test_nothing_imports_upwards():
    linted = subprocess.run(
        [sys.executable, "-c", "from importlinter.cli import lint_imports; raise SystemExit(lint_imports())"],
        cwd=ROOT,
        capture_output=True,
        text=True,
    )
    assert linted.returncode == 0, linted.stdout


def test_a_new_module_must_be_given_its_place():
    homeless = rooms() - places()
    assert homeless == set(), f"Give {homeless} a layer in pyproject.toml, [tool.importlinter]."


def test_both_apps_load_without_anything():
    emptied = {app: (ROOT / app / "__init__.py").read_text() for app in ("greens", "growin")}
    assert emptied == {"greens": "", "growin": ""}


def test_the_ground_floor_loads_without_django():
    loads = "import growin.agronomy, sys; raise SystemExit('django' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", loads], cwd=ROOT).returncode == 0


def imported(path) -> set[str]:
    """The first word of everything a file imports."""
    return imported_in(tree(path))


def imported_in(node: ast.AST) -> set[str]:
    nodes = list(statements(node))
    names = [alias.name for one in nodes if isinstance(one, ast.Import) for alias in one.names]
    names += [one.module or "." for one in nodes if isinstance(one, ast.ImportFrom)]
    return {name.split(".")[0] for name in names}


def statements(node: ast.AST) -> Iterator[ast.AST]:
    """Everything inside it that may hold statements; expressions, which are most of a file, hold none."""
    for child in ast.iter_child_nodes(node):
        if not isinstance(child, ast.expr):
            yield child
            yield from statements(child)


def test_the_ground_floor_stands_on_numpy_and_pandas_alone():
    others = {shown(path): imported(path) - GROUND_FLOOR_MAY_IMPORT for path in GROUND_FLOOR}
    assert {path: names for path, names in others.items() if names} == {}


def clocks(path) -> set[tuple[str, str]]:
    attributes = (node for node in ast.walk(tree(path)) if isinstance(node, ast.Attribute))
    return {(getattr(node.value, "id", ""), node.attr) for node in attributes} & READS_THE_CLOCK


def test_the_ground_floor_has_no_clock():
    assert [shown(path) for path in GROUND_FLOOR if clocks(path)] == []


def called(path) -> set[str]:
    calls = (node.func for node in ast.walk(tree(path)) if isinstance(node, ast.Call))
    return {getattr(func, "attr", getattr(func, "id", "")) for func in calls}


def test_only_the_command_line_of_the_ground_floor_reads_files():
    assert [shown(path) for path in GROUND_FLOOR if called(path) & READS_FILES] in (
        [],
        ["growin/agronomy/__main__.py"],
    )


def inner_imports(path) -> set[str]:
    """What a file imports inside its functions."""
    functions = outermost_functions(tree(path))
    return set().union(*(imported_in(function) for function in functions))


def outermost_functions(node: ast.AST) -> Iterator[ast.AST]:
    """Functions that stand in no other, and methods; each holds those inside it."""
    for child in ast.iter_child_nodes(node):
        if isinstance(child, ast.FunctionDef | ast.AsyncFunctionDef):
            yield child
        elif not isinstance(child, ast.expr):
            yield from outermost_functions(child)


def test_only_heavy_libraries_are_imported_inside_a_function():
    inner = {shown(path): inner_imports(path) - HEAVY for path in python_files("greens", "growin", "tests")}
    assert {path: names for path, names in inner.items() if names} == {}


def test_pictures_are_drawn_in_the_charts_alone():
    drawers = {shown(path) for path in python_files("greens", "growin") if "matplotlib" in imported(path)}
    assert {path.rsplit("/", 1)[0] for path in drawers} <= {"growin/charts"}


def test_pages_are_set_for_paper_in_one_file_alone():
    setters = [shown(path) for path in python_files("greens", "growin") if "weasyprint" in imported(path)]
    assert setters == ["growin/exports/press.py"]
