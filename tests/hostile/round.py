"""One round: so many bad requests to every address by everybody; what broke, and what leaked."""

from collections import Counter
from dataclasses import dataclass, field
from http.cookies import SimpleCookie
from random import Random
from urllib.parse import quote, urlencode

from django.test import Client
from django.urls import NoReverseMatch, reverse

from greens.actions.token import make_token
from greens.config.utf8 import in_utf8
from tests.hostile.nasty import HEADS, VALUES, sent
from tests.house.addresses import Address, addresses
from tests.house.page_forms import PageForm
from tests.house.two_clubs import MARK
from tests.house.visits import Visits, listening

ROLES = ("head", "staff", "committee", "adviser", "nobody", "program")
METHODS = {"post": 60, "get": 30, "put": 2, "patch": 2, "delete": 2, "head": 2, "options": 2}
#: Setting a PDF takes a second: tried, but seldom.
SELDOM = 0.03
SECRET = "no-such-secret"


@dataclass
class Findings:
    """``broken`` and ``leaks`` say the request and what it led to; ``statuses`` count all answers."""

    asked: int = 0
    statuses: Counter = field(default_factory=Counter)
    broken: list[str] = field(default_factory=list)
    leaks: list[str] = field(default_factory=list)

    def __str__(self):
        counted = ", ".join(f"{number} × {status}" for status, number in sorted(self.statuses.items()))
        return f"{self.asked} bad requests: {counted}; {len(self.broken)} broke, {len(self.leaks)} leaked."


@dataclass(frozen=True)
class Request:
    who: str
    method: str
    path: str
    content: bytes
    kind: str
    heads: dict

    def __str__(self):
        content = f"{self.kind} {self.content[:1500]!r}"
        return f"{self.method} {self.path[:300]!r} by {self.who}, {content}, {self.heads}"


class Round:
    def __init__(self, visits: Visits, seed: int):
        self.visits, self.rng, self.found = visits, Random(seed), Findings()
        self.addresses, self.clients = addresses(), clients(visits.clubs.cast)
        self.cookies = {who: client.cookies.output(header="").strip() for who, client in self.clients.items()}

    def go(self, times: int) -> Findings:
        for _ in range(times):
            self.put(self.drawn())
        return self.found

    def drawn(self) -> Request:
        one = self.rng.choice(self.addresses)
        while one.route.endswith((".pdf", ".zip", ".xlsx")) and self.rng.random() > SELDOM:
            one = self.rng.choice(self.addresses)
        method = self.rng.choices(list(METHODS), list(METHODS.values()))[0]
        content, kind = sent(self.body(one), self.rng) if method in ("post", "put", "patch") else (b"", "")
        heads = self.rng.choice(HEADS) if self.rng.random() < 0.2 else {}
        return Request(self.rng.choice(ROLES), method, self.path(one), content, kind, heads)

    def body(self, one: Address) -> dict[str, list[str]]:
        """What a page would send here, with a field or two that it would not."""
        form = self.visits.forms.get(one.name, PageForm(""))
        unasked = self.rng.sample(["next", "back", "green", "step", "client_id", "doer", "code", "key"], 2)
        boxes = {name: form.sent.get(name, form.offered.get(name, [""])[:1]) for name in sorted(form.boxes)}
        return boxes | form.filled() | {name: [self.rng.choice(VALUES)] for name in unasked}

    def path(self, one: Address) -> str:
        """Mostly an address of ours; at times with another club's row or with nonsense in it."""
        words = dict.fromkeys(one.words, SECRET) | {
            word: row for word, row in one.said(self.visits.clubs.rows).items() if row is not None
        }
        for word in self.rng.sample(sorted(words), len(words)) if self.rng.random() < 0.25 else ():
            other = self.visits.clubs.theirs.get(word, SECRET)
            words[word] = self.rng.choice((other, self.rng.choice(VALUES), 10**18, 10**30))
            break
        try:
            path = reverse(one.name, kwargs=words)
        except NoReverseMatch:
            path = "/" + "".join(quote(f"{word}/") for word in map(str, [one.name, *words.values()]))
        asked = ["green", "page", "on", "as_of", "year", "kept", "step", "cursor", "greens", "label", "how"]
        query = {name: self.rng.choice(VALUES) for name in self.rng.sample(asked, self.rng.randint(0, 3))}
        return path + ("?" + urlencode(query) if query else "")

    def put(self, asked: Request) -> None:
        """One request, wholly undone; what it led to is noted."""
        client, wrote = self.clients[asked.who], set()
        client.cookies = SimpleCookie(self.cookies[asked.who])  # whoever signed out a moment ago is in again
        with listening(wrote):
            answer = client.generic(
                asked.method.upper(), asked.path, asked.content, asked.kind, headers=asked.heads
            )
            self.note(asked, answer, wrote)

    def note(self, asked: Request, answer, wrote: set[str]) -> None:
        self.found.asked += 1
        self.found.statuses[answer.status_code] += 1
        if answer.status_code >= 500:
            self.found.broken.append(f"{said(answer)} after {asked}")
        elif wrong := self.visits.wrong(answer, wrote):
            self.found.leaks.append(f"{wrong} after {asked}")
        if answer.streaming:
            told = b"".join(answer.streaming_content)
            self.found.leaks += [str(asked)] if MARK.encode() in told else []


def said(answer) -> str:
    """What broke, and where."""
    kind, error, at = answer.exc_info if getattr(answer, "exc_info", None) else (None, "", None)
    while at and at.tb_next:
        at = at.tb_next
    where = f" at {at.tb_frame.f_code.co_filename.rsplit('/', 3)[-1]}:{at.tb_lineno}" if at else ""
    return f"{answer.status_code} {getattr(kind, '__name__', kind)}: {str(error)[:300]}{where}"


def clients(cast) -> dict[str, Client]:
    """Everybody who asks: members by their session, a program by its token, and nobody."""
    token = make_token(member=cast.adviser, name="A program")
    found = {who: Client(raise_request_exception=False) for who in ROLES}
    for client in found.values():
        client.handler = in_utf8_too(client.handler)
    for who in ("head", "staff", "committee", "adviser"):
        found[who].force_login(cast[who].person)
    found["program"].defaults["HTTP_AUTHORIZATION"] = f"Bearer {token}"
    return found


def in_utf8_too(handler):
    """What stands around the site in front of a real server stands around it here."""
    return lambda environ: in_utf8(lambda told, _: handler(told))(environ, None)
