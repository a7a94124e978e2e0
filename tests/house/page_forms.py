"""The forms that stand on a page, and what a browser would send of them with what must be filled in."""

from dataclasses import dataclass, field
from html.parser import HTMLParser

FILLED = {
    "date": "2026-04-15",
    "time": "10:00",
    "email": "somebody@example.org",
    "decimal": "10",
    "numeric": "3",
}
WORDS = "Words"


@dataclass
class PageForm:
    """``boxes`` are its fields, ``sent`` what stands in them, ``offered`` every value that can be chosen."""

    action: str
    sent: dict[str, list[str]] = field(default_factory=dict)
    offered: dict[str, list[str]] = field(default_factory=dict)
    wanted: set[str] = field(default_factory=set)
    boxes: set[str] = field(default_factory=set)

    def offer(self, name: str, value: str, chosen: bool) -> None:
        self.offered.setdefault(name, []).append(value)
        if chosen:
            self.sent.setdefault(name, []).append(value)

    def filled(self) -> dict[str, list[str]]:
        """With the last choice wherever one must be made."""
        first = {
            name: values[-1:]
            for name, values in self.offered.items()
            if name in self.wanted and not any(self.sent.get(name, ()))
        }
        return self.sent | first


class Forms(HTMLParser):
    """Collects the forms of a page that post."""

    def __init__(self, path: str):
        super().__init__()
        self.path, self.found, self.form = path, [], None
        self.select, self.words = {}, []

    def handle_starttag(self, tag, attrs):
        told = dict(attrs)
        if tag == "form":
            posts = told.get("method", "").lower() == "post"
            self.form = PageForm(told.get("action") or self.path) if posts else None
        elif tag == "select":
            self.select = told
            self.note(told)
        elif self.form and tag in SEEN and (told.get("name") or tag == "option"):
            self.note(told)
            SEEN[tag](self, told.get("name"), told)

    def note(self, told: dict) -> None:
        if self.form and told.get("name"):
            self.form.boxes.add(told["name"])
            self.form.wanted |= {told["name"]} if "required" in told else set()

    def handle_endtag(self, tag):
        self.words = []
        if tag == "form" and self.form:
            self.found.append(self.form)
            self.form = None

    def see_box(self, name: str, told: dict) -> None:
        kind, value = told.get("type", "text"), told.get("value", "")
        if kind in ("checkbox", "radio"):
            self.form.offer(name, told.get("value", "on"), "checked" in told)
        elif value or kind == "hidden":
            self.form.offer(name, value, True)
        elif kind != "file" and "required" in told:
            self.form.sent[name] = [FILLED.get(told.get("inputmode"), FILLED.get(kind, WORDS))]

    def see_option(self, name, told: dict) -> None:
        if self.select.get("name"):
            self.form.offer(self.select["name"], told.get("value", ""), "selected" in told)

    def see_words(self, name: str, told: dict) -> None:
        self.form.sent[name] = [WORDS] if "required" in told else [""]
        self.words = self.form.sent[name]

    def handle_data(self, data):
        if self.words and data.strip():
            self.words[0] = data.strip()

    def see_button(self, name: str, told: dict) -> None:
        self.form.offer(name, told.get("value", ""), False)


SEEN = {
    "input": Forms.see_box,
    "option": Forms.see_option,
    "textarea": Forms.see_words,
    "button": Forms.see_button,
}


def forms_of(path: str, html: str) -> list[PageForm]:
    reader = Forms(path)
    reader.feed(html)
    return reader.found
