"""The limits of a decision rule as lines of a picture: how high, and what they ask, in words.

Numbers stand in the unit of their measure, shares in per cent.
"""

from dataclasses import dataclass

from growin.agronomy.plain_words import amount, counted
from growin.agronomy.rules import BoundRule, CountRule, LargestRule, RangeRule, ShownRule, YesRule


@dataclass(frozen=True)
class LimitLine:
    """One line: its height, and what the rule asks there."""

    at: float
    words: str


def limit_lines(rule, unit: str = "") -> tuple[LimitLine, ...]:
    """The lines of one rule; none for a reading that is only shown."""
    return LINES[type(rule)](rule, unit)


def _count(rule: CountRule, unit: str) -> tuple[LimitLine, ...]:
    asked = f"{rule.wanted} of {counted(rule.of, rule.places)}"
    if rule.at_least is None:
        return (LimitLine(100 * rule.wanted / rule.of, f"{asked} wanted"),)
    return (LimitLine(rule.at_least, f"{amount(rule.at_least, unit)} wanted in {asked}"),)


def _largest(rule: LargestRule, unit: str) -> tuple[LimitLine, ...]:
    return (LimitLine(rule.limit, f"none over {amount(rule.limit, unit)}" if rule.limit else "none wanted"),)


def _bound(rule: BoundRule, _) -> tuple[LimitLine, ...]:
    return (
        LimitLine(rule.share_percent, f"{amount(rule.share_percent, '%')} wanted"),
        LimitLine(rule.lower_percent, f"{amount(rule.lower_percent, '%')} allowing for chance"),
    )


def _range(rule: RangeRule, unit: str) -> tuple[LimitLine, ...]:
    ends = ((rule.low, "at least"), (rule.high, "at most"))
    return tuple(LimitLine(at, f"{words} {amount(at, unit)}") for at, words in ends if at is not None)


def _yes(rule: YesRule, _) -> tuple[LimitLine, ...]:
    return (LimitLine(100.0 if rule.wanted else 0.0, "all wanted" if rule.wanted else "none wanted"),)


LINES = {
    CountRule: _count,
    LargestRule: _largest,
    BoundRule: _bound,
    RangeRule: _range,
    YesRule: _yes,
    ShownRule: lambda rule, unit: (),
}
