"""``python -m tests.advisories``: is any pinned package known to be unsafe?

Asks the open advisory service of osv.dev about every line of the lock. Exit 0: asked, and nothing known;
1: something is known; 2: not run, because the service did not answer as it should. Silence is no answer.
"""

import json
import sys
from urllib.error import URLError
from urllib.request import Request, urlopen

from tests.locked import LOCK, pins

SERVICE = "https://api.osv.dev/v1/querybatch"
CLEAN, KNOWN, NOT_RUN = 0, 1, 2
PATIENCE_S = 20


class NoAnswer(Exception):
    """The service said nothing that counts."""


def asked(pinned: dict[str, str], service: str) -> dict[str, list[str]]:
    """Advisories by "name version"; raises NoAnswer."""
    queries = [
        {"package": {"name": name, "ecosystem": "PyPI"}, "version": one} for name, one in pinned.items()
    ]
    sent = Request(service, json.dumps({"queries": queries}).encode(), {"Content-Type": "application/json"})
    try:
        with urlopen(sent, timeout=PATIENCE_S) as answer:
            results = json.load(answer)["results"]
        if len(results) != len(pinned):
            raise NoAnswer(f"it told of {len(results)} packages, {len(pinned)} were asked about")
        found = [[one["id"] for one in result.get("vulns", [])] for result in results]
    except (URLError, OSError, ValueError, KeyError, TypeError, AttributeError) as failed:
        raise NoAnswer(f"{type(failed).__name__}: {failed}") from None
    names = (f"{name} {version}" for name, version in pinned.items())
    return {name: ids for name, ids in zip(names, found, strict=True) if ids}


def main(service: str = SERVICE) -> int:
    pinned = pins(LOCK)
    try:
        known = asked(pinned, service)
    except NoAnswer as why:
        print(f"Advisories: not run ({why}).")
        return NOT_RUN
    for name, ids in known.items():
        print(f"{name}: {', '.join(ids)}")
    print(f"Advisories: {len(pinned)} packages asked about, {len(known)} with something known.")
    return KNOWN if known else CLEAN


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
