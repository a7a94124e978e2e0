"""What docker/compose.yaml starts, started here without containers: the same commands on the same settings.

Commands, settings and secrets are read out of the files that people run; only names that exist inside
the containers' network stand for something else: folders, ports and the addresses of the services.
"""

import json
import os
import re
import secrets
import subprocess
import sys
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from urllib.error import HTTPError

import yaml

from tests.real_site import PATIENCE_S, ROOT

DOCKER = ROOT / "docker"
HOST = "greens.example.org"
VARIABLE = re.compile(r"\$\{(\w+)(?:(:-|:\?)((?:[^{}]|\$\{\w+\})*))?\}")
PROGRAMS = Path(sys.executable).parent


@cache
def compose(name: str = "compose.yaml") -> dict:
    return yaml.safe_load((DOCKER / name).read_text())


def filled(text, known: dict[str, str]) -> str:
    """A value with its variables, as compose fills them in."""

    def of(match) -> str:
        return known.get(match[1]) or filled(match[3] or "", known)

    return VARIABLE.sub(of, str(text))


def instruction(word: str) -> list[str]:
    """The list in the last line of the Dockerfile that begins with this word."""
    found = re.findall(rf"^{word}\b[^\[]*(\[.*\])$", (DOCKER / "Dockerfile").read_text(), re.MULTILINE)
    return json.loads(found[-1])


@dataclass(frozen=True)
class Composed:
    """The services of the compose file in a folder of this machine."""

    folder: Path
    database_port: int
    redis_port: int

    def __post_init__(self):
        for name in compose()["secrets"]:
            value = {"email_url": "dummymail://", "database_password": "trusted"}.get(name)
            (self.folder / name).write_text(f"{value or secrets.token_urlsafe(40)}\n")

    def here(self, text: str) -> str:
        """What a name inside the containers stands for outside of them."""
        stands_for = {
            "/run/secrets/": f"{self.folder}/",
            "/backups": str(self.folder / "backups"),
            "/tmp/": f"{self.folder}/",
            "@database:5432/greens": f"@127.0.0.1:{self.database_port}/postgres",
            "redis:6379": f"127.0.0.1:{self.redis_port}",
        }
        inside = "|".join(map(re.escape, stands_for))
        return re.sub(inside, lambda match: stands_for[match[0]], text)

    def environment(self, service: str, port: int = 0) -> dict[str, str]:
        asked = compose()["services"][service]["environment"]
        inherited = {name: value for name, value in os.environ.items() if not name.startswith("GREENS_")}
        inherited.pop("DATABASE_URL", None)
        said = {name: self.here(filled(value, {"GREENS_HOST": HOST})) for name, value in asked.items()}
        more = {"GREENS_DATA_DIR": str(self.folder / "data"), "GREENS_PORT": str(port)}
        return inherited | {"PATH": f"{PROGRAMS}:{os.environ['PATH']}"} | said | more

    def command(self, service: str) -> list[str]:
        return [*instruction("ENTRYPOINT"), *map(self.here, compose()["services"][service]["command"])]

    @contextmanager
    def started(self, service: str, port: int = 0) -> Iterator[subprocess.Popen]:
        """One container's process; told to stop at the end, as an engine does."""
        how = {"cwd": ROOT, "env": self.environment(service, port), "stderr": subprocess.PIPE, "text": True}
        process = subprocess.Popen(self.command(service), **how)
        try:
            yield process
        finally:
            process.terminate()
            try:
                process.communicate(timeout=PATIENCE_S)
            finally:
                process.kill()

    def is_healthy(self, port: int) -> bool:
        """What the image's own health check says of a web process."""
        check = [sys.executable, *instruction("HEALTHCHECK")[1:]]
        asked = subprocess.run(check, cwd=ROOT, env=self.environment("web", port), capture_output=True)
        return asked.returncode == 0


def ask(port: int, path: str, **headers) -> tuple[int, str, dict]:
    """What the web process answers to the proxy: status, page, heads."""
    as_the_proxy = {"Host": HOST, "X-Forwarded-Proto": "https", "X-Forwarded-For": "192.0.2.7"}
    request = urllib.request.Request(f"http://127.0.0.1:{port}{path}", headers=as_the_proxy | headers)
    try:
        with urllib.request.urlopen(request, timeout=PATIENCE_S) as answer:
            return answer.status, answer.read().decode(), dict(answer.headers)
    except HTTPError as refused:
        return refused.code, refused.read().decode(), dict(refused.headers)
