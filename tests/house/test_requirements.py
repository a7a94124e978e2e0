"""What is installed is written down to the byte, and asked about without taking silence for an answer."""

import json
import re
from http.server import BaseHTTPRequestHandler, HTTPServer
from threading import Thread

import pytest

from tests import advisories
from tests.locked import LOCK, WANTED, pins


def test_the_lock_pins_what_is_asked_for():
    locked = pins(LOCK)
    assert {name: locked.get(name) for name in pins(WANTED)} == pins(WANTED)


def test_every_line_of_requirements_pins_one_version():
    lines = [line for line in WANTED.read_text().splitlines() if line and not line.startswith("#")]
    assert len(lines) == len(pins(WANTED))


def test_every_package_of_the_lock_has_its_hashes():
    """pip takes nothing else once one line has a hash (its guide, "Hash-checking Mode")."""
    parts = re.split(r"\n(?=[a-z])", LOCK.read_text())[1:]
    assert [part.split("==")[0] for part in parts if "--hash=sha256:" not in part] == []
    assert len(parts) == len(pins(LOCK)) > len(pins(WANTED))


@pytest.fixture
def service():
    """A service of advisories that answers what it is told to."""

    class Answers(BaseHTTPRequestHandler):
        told = (200, b"{}")

        def do_POST(self):
            self.rfile.read(int(self.headers["Content-Length"]))
            self.send_response(self.told[0])
            self.end_headers()
            self.wfile.write(self.told[1])

        def log_message(self, *args):
            pass

    with HTTPServer(("127.0.0.1", 0), Answers) as server:
        Thread(target=server.serve_forever, daemon=True).start()
        yield Answers, f"http://127.0.0.1:{server.server_port}/"
        server.shutdown()


def results(*first) -> bytes:
    rest = [{}] * (len(pins(LOCK)) - len(first))
    return json.dumps({"results": [*first, *rest]}).encode()


@pytest.mark.parametrize(
    ("told", "ends", "says"),
    [
        ((200, results()), advisories.CLEAN, "0 with something known"),
        ((200, results({"vulns": [{"id": "PYSEC-2026-1"}]})), advisories.KNOWN, "PYSEC-2026-1"),
        ((200, b'{"results": []}'), advisories.NOT_RUN, "not run"),
        ((200, b"<html>"), advisories.NOT_RUN, "not run"),
        ((503, b""), advisories.NOT_RUN, "not run"),
    ],
)
def test_an_advisory_check_counts_only_when_it_was_answered(service, capsys, told, ends, says):
    service[0].told = told
    assert (advisories.main(service[1]), says in capsys.readouterr().out) == (ends, True)


def test_a_service_that_is_not_there_is_said_not_to_have_run(capsys):
    assert advisories.main("http://127.0.0.1:9/") == advisories.NOT_RUN
    assert "not run" in capsys.readouterr().out
