"""Words on the screen and the ink they are written in."""

import ast
import re

from tests.house.sources import ROOT, python_files, shown, templates, texts, tree

CSS = ROOT / "greens" / "static" / "greens" / "css"
MARKUP = re.compile(
    r"\{#.*?#\}|\{% comment %\}.*?\{% endcomment %\}|\{%.*?%\}|\{\{.*?\}\}|<[^>]*>", re.DOTALL
)
EXCLAMATION = re.compile(r"[^\W\d_][!](?:\s|$|[\"'”’])")
A_MACHINE = re.compile("(?<![\\w.}])/(?:" + "|".join(("tmp", "work", "home", "root", "Users")) + ")/")
NOT_WORDS_OF_OURS = ("oops", "simply ", "please ", "awesome")


def words_of(template) -> str:
    return MARKUP.sub(" ", template.read_text())


def test_no_page_exclaims():
    assert [shown(path) for path in templates() if "!" in words_of(path)] == []


def sentences(path) -> list[str]:
    """Every text that stands in a file of code."""
    nodes = (node for node in ast.walk(tree(path)) if isinstance(node, ast.Constant))
    return [node.value for node in nodes if isinstance(node.value, str)]


def test_no_sentence_exclaims():
    loud = {
        shown(path): [text for text in sentences(path) if EXCLAMATION.search(text)]
        for path in python_files("greens", "growin")
    }
    assert {path: found for path, found in loud.items() if found} == {}


def test_no_page_jokes_or_begs():
    spoken = {
        shown(path): [word for word in NOT_WORDS_OF_OURS if word in words_of(path).lower()]
        for path in templates()
    }
    assert {path: words for path, words in spoken.items() if words} == {}


def test_no_file_knows_the_machine_it_was_written_on():
    """Inside a container there are absolute paths; on somebody's machine there are none."""
    files = [path for path in texts() if "docker" not in path.parts]
    assert [shown(path) for path in files if A_MACHINE.search(path.read_text())] == []


# ---- ink on paper: contrast after WCAG 2.2, success criteria 1.4.6 (7:1) and 1.4.11 (3:1) ------------


def declared(block: str) -> dict[str, str]:
    return dict(re.findall(r"--([\w-]+):\s*(#[0-9a-f]{6})\b", block, re.IGNORECASE))


def inks() -> dict[str, dict[str, str]]:
    """The colours by day and, where the dark variant names none of its own, the same by night."""
    ground = (CSS / "ground.css").read_text()
    light, dark = re.findall(r":root\s*\{(.*?)\}", ground, re.DOTALL)[:2]
    return {"light": declared(light), "dark": declared(light) | declared(dark)}


def luminance(colour: str) -> float:
    """Relative luminance of an sRGB colour (WCAG 2.2, definition of relative luminance)."""
    shares = [int(colour[start : start + 2], 16) / 255 for start in (1, 3, 5)]
    linear = [share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4 for share in shares]
    return sum(weight * share for weight, share in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


def contrast(one: str, other: str) -> float:
    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def too_faint(pairs: list[tuple[str, str]], least: float) -> dict[str, float]:
    found = {
        f"{variant}: {ink} on {paper}": round(contrast(colours[ink], colours[paper]), 2)
        for variant, colours in inks().items()
        for ink, paper in pairs
    }
    return {pair: ratio for pair, ratio in found.items() if ratio < least}


def test_the_contrast_is_computed_as_the_guideline_does():
    """Black on white is 21:1; #767676 on white is the well-known 4.54:1."""
    assert (contrast("#000000", "#ffffff"), round(contrast("#767676", "#ffffff"), 2)) == (21, 4.54)


def test_words_stand_at_least_seven_to_one_on_their_paper():
    inked = [(ink, paper) for ink in ("ink", "faint", "accent") for paper in ("paper", "leaf")]
    assert too_faint([*inked, ("on-accent", "accent")], 7) == {}


def test_borders_and_marks_stand_at_least_three_to_one():
    marks = [("ink", "paper"), ("accent", "paper"), ("water", "paper"), ("growth", "paper")]
    assert too_faint(marks, 3) == {}


def rules_of(name: str) -> list[tuple[str, str]]:
    """Selector and body of every rule of a style sheet."""
    sheet = re.sub(r"/\*.*?\*/", "", (CSS / name).read_text(), flags=re.DOTALL)
    return [(head.strip(), body) for head, body in re.findall(r"([^{}]+)\{([^{}]*)\}", sheet)]


def test_fields_are_bordered_in_ink_never_in_the_pale_rule():
    fields = re.compile(r"\b(input|select|textarea)\b")
    pale = [
        head
        for sheet in sorted(CSS.glob("*.css"))
        for head, body in rules_of(sheet.name)
        if fields.search(head) and re.search(r"border[^;]*var\(--rule\)", body)
    ]
    assert pale == []


def test_colours_are_named_once():
    """Every sheet but the ground takes its colours by name."""
    coloured = {
        sheet.name: re.findall(r"#[0-9a-fA-F]{3,8}\b", sheet.read_text())
        for sheet in sorted(CSS.glob("*.css"))
        if sheet.name not in ("ground.css", "print.css")
    }
    assert {name: found for name, found in coloured.items() if found} == {}


def test_water_growth_and_rule_are_never_the_colour_of_words():
    words = re.compile(r"(?<![-\w])color:\s*var\(--(water|growth|rule|sand)\)")
    assert [sheet.name for sheet in sorted(CSS.glob("*.css")) if words.search(sheet.read_text())] == []
