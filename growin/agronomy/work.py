"""What one kind of diary entry is, and short ways to write its fields."""

from dataclasses import dataclass

from growin.agronomy.fields import CHOICE, NUMBER, TEXT, Field


@dataclass(frozen=True)
class Work:
    """One kind of diary entry.

    ``takes_product`` names the kind of product its lines carry ("" for none);
    ``needs_turf`` refuses the entry before laying or sowing; ``cautions`` are keys of
    :mod:`growin.agronomy.cautions`; ``answer_only`` entries are one tap without a form.
    """

    key: str
    words: str
    family: str
    fields: tuple[Field, ...] = ()
    takes_product: str = ""
    needs_turf: bool = False
    cautions: tuple[str, ...] = ()
    answer_only: bool = False


def mm(key: str, words: str, low: float, high: float, step: float = 1, **more) -> Field:
    """A length in millimetres."""
    return Field(key, words, NUMBER, "mm", low, high, step, **more)


def number(key: str, words: str, unit: str, low: float, high: float, step: float = 1, **more) -> Field:
    """A number in ``unit``."""
    return Field(key, words, NUMBER, unit, low, high, step, **more)


def choice(key: str, words: str, required: bool = False, **choices: str) -> Field:
    """One of ``choices``: stored word = word shown."""
    return Field(key, words, CHOICE, choices=tuple(choices.items()), required=required)


PLACE = Field("place", "Where on the green", TEXT)
ON_OFF = {"on": "on", "off": "off"}
SEVERITY = choice("severity", "How bad", trace="a trace", light="light", moderate="moderate", severe="severe")
