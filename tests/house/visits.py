"""Every page of a club visited, and every form sent, with an ear for what is asked and what is written."""

import re
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cached_property

from django.apps import apps
from django.db import connection, transaction
from django.test import Client
from django.urls import resolve

from tests import whose
from tests.house.addresses import Address, addresses
from tests.house.page_forms import PageForm, forms_of
from tests.house.two_clubs import MARK, TwoClubs

MEMBERS = ("head", "committee", "adviser")
OUR_ROW, THEIR_ROW = re.compile(r"\b50\d\d\d\b"), "70001"
TABLES = {one._meta.db_table: one for one in apps.get_models(include_auto_created=True)}
#: Kept for each visitor or each request, whatever was asked.
BESIDE = {"django_session"}
INSIDE = [one for one in addresses() if one.is_inside]
PAGES = [one for one in INSIDE if one.is_a_page]
#: What a form needs beside its own values before it is kept, where "3" or "10" would not do.
WRITTEN = {
    "wishes": {"no_mail": "on"},
    "build": {"gravel_depths_mm": "100 105 98"},
    "change_setting": {"value": "45", "confirmed": "yes"},
    "log_at_once": {"kind": "walk"},
    "log_work": {"products-0-amount": "11.25", "products-1-label": "", "form": "granular"},
    "correct_entry": {"products-1-label": "", "products-0-amount": "12"},
    "correct_reading": {"note": "By the bank"},
    "take_reading": {"values": ["45", "50"]},
    "take_on_a_green": {"values": ["45", "50"]},
}
#: These hold the number of a row and name none: the page somebody came from, the plan that was on screen.
NO_ROW = {"back", "shown"}
#: Drawn for one more line of a form, never read.
PATTERN = "__prefix__"


@dataclass(frozen=True)
class Heard:
    """What a visit led to; ``wrote`` are the tables in which it changed rows."""

    answer: object
    wrote: set[str]


@contextmanager
def listening(wrote: set[str]):
    """Notes the tables in which rows are changed, and takes every change back."""

    def watch(execute, sql, params, many, context):
        done = execute(sql, params, many, context)
        deed, table = sql.split(" ", 1)[0], sql.split('"')[1:2]
        changed = deed == "INSERT" or (deed in ("UPDATE", "DELETE") and context["cursor"].rowcount)
        wrote.update(set(table) - BESIDE if changed else ())
        return done

    with transaction.atomic(), connection.execute_wrapper(watch):
        yield
        transaction.set_rollback(True)


class Visits:
    """Every page of our club, each by the first member who may, and the forms that stand there."""

    def __init__(self, clubs: TwoClubs):
        self.clubs, self.clients = clubs, {who: Client() for who in MEMBERS}
        for who, client in self.clients.items():
            client.force_login(clubs.cast[who].person)
        self.before = {one: whose.written(one, clubs.other) for one in whose.of_clubs()}

    def client(self, one: Address) -> Client:
        return self.clients[one.open_to(MEMBERS, self.clubs.cast)[0]]

    def look(self, one: Address, asked: dict | None = None):
        with listening(set()):
            answer = self.client(one).get(one.filled(self.clubs.rows), asked)
            answer.getvalue()  # read to its end a file is closed, and the connection is not
        return answer

    @cached_property
    def pages(self) -> dict[str, object]:
        return {one.name: self.look(one) for one in PAGES}

    @cached_property
    def forms(self) -> dict[str, PageForm]:
        """One form for every address that takes one; its own, or an empty one where no page shows it."""
        found = {one.name: PageForm(one.filled(self.clubs.rows)) for one in INSIDE}
        for answer in self.pages.values():
            if answer.status_code == 200 and answer["Content-Type"].startswith("text/html"):
                shown = forms_of(answer.request["PATH_INFO"], answer.content.decode())
                found |= {resolve(form.action.split("?")[0]).url_name: form for form in shown}
        return found

    @cached_property
    def untouched(self) -> dict[str, Heard]:
        """What comes of every form as it stands, with rows of ours chosen in it."""
        return {one.name: self.send(one) for one in INSIDE}

    def send(self, one: Address, instead: dict | None = None, headers: dict | None = None) -> Heard:
        form = self.forms[one.name]
        body = form.filled() | naming(form) | WRITTEN.get(one.name, {}) | (instead or {})
        wrote: set[str] = set()
        with listening(wrote):
            answer = self.client(one).post(form.action, body or {"nothing": ""}, headers=headers)
            wrong = self.wrong(answer, wrote)
            answer.getvalue()
        assert wrong == [], f"{one} with {instead}"
        return Heard(answer, wrote)

    def wrong(self, answer, wrote: set[str]) -> list:
        """What must never be, whatever was sent: our pages show the other club, or a row crosses over."""
        tables = [TABLES[name] for name in sorted(wrote) if TABLES[name] in self.before]
        touched = [one.__name__ for one in tables if whose.written(one, self.clubs.other) != self.before[one]]
        shown = [MARK] if not answer.streaming and MARK.encode() in answer.content else []
        return touched + [row for one in tables for row in whose.crossed(one)] + shown


def naming(form: PageForm) -> dict[str, list[str]]:
    """Fields in which a row of ours can be chosen, with one of them: the one that is chosen, or the last."""
    ours = {
        name: [one for one in values + form.sent.get(name, []) if OUR_ROW.search(one)]
        for name, values in form.offered.items()
        if name not in NO_ROW and PATTERN not in name
    }
    return {name: values[-1:] for name, values in ours.items() if values}


def theirs(value: list[str]) -> list[str]:
    """The same choice with a row of the other club in it."""
    return [OUR_ROW.sub(THEIR_ROW, one) for one in value]
