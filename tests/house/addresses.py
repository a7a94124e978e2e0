"""Every address of the site, read from the resolver, so that a new one cannot be forgotten."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from django.urls import URLPattern, URLResolver, get_resolver, reverse

#: Pictures, prints and tables to take away: nothing to read on screen, and dear to make.
NO_PAGE = (".pdf", ".svg", ".zip", ".xlsx", ".csv")


@dataclass(frozen=True)
class Address:
    """One line of the URL tables: its name, its view, and the words that stand in it."""

    name: str
    route: str
    view: Callable
    words: frozenset[str]

    def __str__(self):
        return self.name or self.route

    @property
    def is_in_a_club(self) -> bool:
        return "club_slug" in self.words

    @property
    def is_inside(self) -> bool:
        """Whether a member opens it by a session; programs open theirs by a token."""
        return self.is_in_a_club and not getattr(self.view, "by_token", False)

    @property
    def is_a_page(self) -> bool:
        return not self.route.endswith(NO_PAGE)

    def open_to(self, members: Iterable[str], cast) -> list[str]:
        """Those of the cast who may."""
        return [who for who in members if cast[who].role in self.view.right.value]

    def said(self, rows: dict[str, object]) -> dict[str, object]:
        """What stands for each of its words; "setting.key" goes before "key" in ``setting``."""
        return {word: rows.get(f"{self.name}.{word}", rows.get(word)) for word in self.words}

    def filled(self, rows: dict[str, object]) -> str:
        return reverse(self.name, kwargs=self.said(rows))


def addresses() -> list[Address]:
    return list(below(get_resolver(), "", frozenset()))


def below(resolver: URLResolver, route: str, words: frozenset[str]) -> Iterator[Address]:
    for one in resolver.url_patterns:
        there = route + str(one.pattern)
        found = words | set(one.pattern.converters)
        if isinstance(one, URLPattern):
            yield Address(one.name or "", there, one.callback, found)
        else:
            yield from below(one, there, found)
