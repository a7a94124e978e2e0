"""How the sums are checked: every formula with its printed examples beside our figures, worked out live."""

import json
from dataclasses import dataclass
from functools import cache
from importlib import resources

from growin.agronomy.check import Figure, RowResult, check_row
from growin.agronomy.formulas import FORMULAS, FURTHER, GROUPS, Formula, Further

SHEETS = "growin.agronomy", "sheets"


@dataclass(frozen=True)
class Example:
    """One row of a sheet: what the print says, and what we make of it."""

    result: RowResult
    note: str

    @property
    def figures(self) -> list[tuple[str, str, str, bool, str]]:
        """Name, printed figure, our figure, whether they agree, and how close they had to be."""
        return [
            (name_of(one.key), shown(one.published), shown(one.calculated), one.agrees, within(one))
            for one in self.result.figures
        ]


@dataclass(frozen=True)
class Checked:
    """One formula with all its examples."""

    formula: Formula
    examples: tuple[Example, ...]

    @property
    def agreeing(self) -> int:
        return sum(one.result.passed for one in self.examples)

    @property
    def printed(self) -> int:
        """How many of the examples were printed with their answer."""
        return sum(one.result.kind == "published" for one in self.examples)

    @property
    def first(self) -> Example:
        """The example that stands for all: a printed one where there is one."""
        return next((one for one in self.examples if one.result.kind == "published"), self.examples[0])

    @property
    def others(self) -> list[Example]:
        return [one for one in self.examples if one is not self.first]


@dataclass(frozen=True)
class Checks:
    """The whole page."""

    groups: tuple[tuple[str, tuple[Checked, ...]], ...]
    further: tuple[Further, ...]

    @property
    def checked(self) -> list[Checked]:
        return [one for _, group in self.groups for one in group]

    @property
    def examples(self) -> int:
        return sum(len(one.examples) for one in self.checked)

    @property
    def agreeing(self) -> int:
        return sum(one.agreeing for one in self.checked)


@cache
def all_checks() -> Checks:
    """Every example of the sheets, worked out once in the life of this process."""
    found: dict[str, list[Example]] = {}
    for row in rows():
        example = Example(check_row(row), row.get("note", ""))
        found.setdefault(example.result.calculation, []).append(example)
    checked = [Checked(one, tuple(found[one.calculation])) for one in FORMULAS]
    groups = [
        (words, tuple(one for one in checked if one.formula.group == words)) for words in GROUPS.values()
    ]
    return Checks(tuple(groups), FURTHER)


def rows() -> list[dict]:
    """Rows of all sheets that the project carries."""
    package, folder = SHEETS
    sheets = sorted(resources.files(package).joinpath(folder).iterdir(), key=lambda one: one.name)
    return [row for sheet in sheets for row in json.loads(sheet.read_text(encoding="utf-8"))]


def name_of(key: str) -> str:
    """A key of a sheet as words: "product_g_m2" → "product g m2"."""
    return key.replace("_", " ")


def within(figure: Figure) -> str:
    """How close our figure had to come."""
    return f"within {figure.tolerance:.3g}" if figure.tolerance else "exactly"


def shown(value) -> str:
    """A figure to six digits, a list, or an answer."""
    if isinstance(value, list):
        return " · ".join(shown(one) for one in value)
    if isinstance(value, bool) or not isinstance(value, int | float):
        return {True: "yes", False: "no", None: "not worked out"}.get(value, str(value))
    return f"{value:.6g}"
