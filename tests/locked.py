"""What requirements.txt asks for, and what docker/requirements.lock pins of it."""

import re
from pathlib import Path

HOUSE = Path(__file__).resolve().parents[1]
WANTED = HOUSE / "requirements.txt"
LOCK = HOUSE / "docker" / "requirements.lock"
PIN = re.compile(r"^(?P<name>[\w.-]+)(\[[\w,-]+\])?==(?P<version>[\w.!+]+)", re.MULTILINE)


def pins(path: Path) -> dict[str, str]:
    """Version by name, as PEP 503 writes names."""
    return {
        re.sub(r"[-_.]+", "-", one["name"]).lower(): one["version"] for one in PIN.finditer(path.read_text())
    }
