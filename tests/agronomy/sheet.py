"""The project's own worked examples, by row, for tests."""

import json
from pathlib import Path

import growin.agronomy

FOLDER = Path(growin.agronomy.__file__).parent / "sheets"
FILES = sorted(FOLDER.glob("*.json"))


def rows(name: str = "*") -> list[dict]:
    """Rows of one sheet, or of all."""
    return [
        row for path in sorted(FOLDER.glob(f"{name}.json")) for row in json.loads(path.read_text("utf-8"))
    ]
