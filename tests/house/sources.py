"""What the house tests read: our own files, functions and templates."""

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
OUR_FOLDERS = ("greens", "growin", "tests")
OUR_DOCUMENTS = ("README.md", "DEVELOPERS.md", "manage.py", "pyproject.toml", "requirements.txt")
TEXT_ENDINGS = {".py", ".html", ".txt", ".md", ".toml", ".sh", ".js", ".css", ".svg", ".json", ".yaml"}


@dataclass(frozen=True)
class Function:
    """A function and how many lines it takes from ``def`` to its end, docstring not counted."""

    path: str
    name: str
    lines: int
    has_docstring: bool

    def __str__(self):
        return f"{self.path}: {self.name} takes {self.lines} lines"


def shown(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


def python_files(*folders: str) -> list[Path]:
    """Python files below the folders, generated migrations left out."""
    found = (path for folder in folders for path in (ROOT / folder).rglob("*.py"))
    return sorted(path for path in found if "migrations" not in path.parts)


def templates() -> list[Path]:
    return sorted(path for path in (ROOT / "templates").rglob("*") if path.is_file())


def texts() -> list[Path]:
    """Every text file of ours that people read, but what a test or a build made."""
    folders = (*OUR_FOLDERS, "templates", "docker", ".ci")
    below = (path for folder in folders for path in (ROOT / folder).rglob("*"))
    kept = (path for path in below if path.suffix in TEXT_ENDINGS and "__pycache__" not in path.parts)
    return sorted([*kept, *(ROOT / name for name in OUR_DOCUMENTS if (ROOT / name).exists())])


@cache
def tree(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"))


@cache
def functions(*folders: str) -> tuple[Function, ...]:
    return tuple(one for path in python_files(*folders) for one in functions_of(path))


def functions_of(path: Path) -> Iterator[Function]:
    for node in ast.walk(tree(path)):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            yield measured(path, node)


def measured(path: Path, node: ast.FunctionDef) -> Function:
    lines, words = node.end_lineno - node.lineno + 1, ast.get_docstring(node, clean=False)
    said = node.body[0]
    taken = said.end_lineno - said.lineno + 1 if words is not None else 0
    return Function(shown(path), node.name, lines - taken, words is not None)


def line_count(path: Path) -> int:
    return len(path.read_text(encoding="utf-8").splitlines())
