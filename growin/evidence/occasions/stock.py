"""What the shed lacks for the next steps."""

from greens.actions.notice import Telling
from greens.choices import NoticeKind
from growin.agronomy.plain_words import day
from growin.evidence.occasions.look import Look
from growin.evidence.occasions.words import lines
from growin.queries.shortage import AHEAD, Short, shortages


def tellings(look: Look) -> list[Telling]:
    """One for each product that does not last, told once until the next delivery or count."""
    return [
        Telling(
            kind=NoticeKind.STOCK,
            key=f"stock {one.product.pk} {one.stock.line.pk}",
            subject=f"{one.product}: {one.missing_words} short",
            text=text(one),
            place=look.page("store"),
        )
        for one in shortages(look.club, look.on)
    ]


def text(one: Short) -> str:
    step = one.first
    return lines(
        f"{one.stock.words[:1].upper()}{one.stock.words[1:]}; it does not reach for {step.what} on "
        f"{step.programme.establishment.green}, likely {day(step.likely)}.",
        f"For the steps of the next {AHEAD.days} days {one.missing_words} are missing.",
    )
