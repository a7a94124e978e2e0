"""Lists as people paste them: levels of a layer, radii, sieves, shares of a mix.

Forgiving about what stands between figures, strict about the figures.
"""

import re
from dataclasses import dataclass

from growin.agronomy.plain_words import amount

MOST_FIGURES = 500
MINUS = str.maketrans({"−": "-", "–": "-", "\u00a0": " "})
FIGURE = re.compile(r"[-+]?(\d+(\.\d*)?|\.\d+)")
LINE = re.compile(r"(?P<words>.*\S)[\s:;,=|]+(?P<figure>[-+]?[\d.]+)\s*%?")


class NotReadable(ValueError):
    """A pasted list that cannot be kept; the message is for people."""


@dataclass(frozen=True)
class Range:
    """What one figure may be: ``what`` it is, in ``unit``, with so many decimals at most."""

    what: str
    unit: str
    low: float
    high: float
    decimals: int = 1

    def keep(self, figure: float) -> float:
        """Raises NotReadable outside the range."""
        if not self.low <= figure <= self.high:
            limits = f"{self.low:,g} and {self.high:,g} {self.unit}"
            raise NotReadable(
                f"{figure:,.10g} {self.unit} cannot be right; {self.what} should lie between {limits}."
            )
        return whole_if_so(round(figure, self.decimals))


def whole_if_so(figure: float) -> float:
    return int(figure) if figure == int(figure) else figure


def figures(text: str, of: Range) -> list[float]:
    """Single figures out of a pasted list: "300, 305 298", "300;305;298", one a line.

    A comma is the decimal sign only where the list is parted by something else as well and
    no more digits follow it than the figure may have decimals: "9,4 11,2".

    Raises NotReadable with the piece that is wrong and what would be right.
    """
    pieces = parted(text.translate(MINUS), of.decimals)
    if len(pieces) > MOST_FIGURES:
        raise NotReadable(f"These are {len(pieces):,} figures; at most {MOST_FIGURES} can be kept.")
    return [of.keep(figure(piece, of)) for piece in pieces]


def parted(text: str, decimals: int) -> list[str]:
    """The pieces of a list, commas settled one way or the other."""
    pieces = [piece for piece in re.split(r"[\s;|/]+", text.strip()) if piece]
    decimal_comma = re.compile(rf"[-+]?\d+,\d{{1,{max(decimals, 1)}}}\D*")
    with_comma = [piece for piece in pieces if "," in piece]
    if decimals and with_comma and all(decimal_comma.fullmatch(piece) for piece in with_comma):
        return unit_joined([piece.replace(",", ".") for piece in pieces])
    return unit_joined([part for piece in pieces for part in piece.split(",") if part])


def unit_joined(pieces: list[str]) -> list[str]:
    """Put a unit that was parted from its figure back to it: "300 mm" is one piece."""
    joined: list[str] = []
    for piece in pieces:
        if piece.lower() in {"mm", "m", "in", "ft", "%"} and joined:
            joined[-1] += piece
        else:
            joined.append(piece)
    return joined


def figure(piece: str, of: Range) -> float:
    bare = re.sub(rf"{re.escape(of.unit)}\.?$", "", piece.strip(), flags=re.IGNORECASE)
    if not FIGURE.fullmatch(bare):
        raise NotReadable(
            f"‘{piece[:20]}’ is not a figure in {of.unit}; write the figures with spaces or commas between."
        )
    return float(bare)


def pairs(text: str, first: Range, second: Range) -> list[list[float]]:
    """Two figures a line, such as a sieve and what passes it: "2.0 97", "2,0: 97 %", "2.0<tab>97".

    Raises NotReadable with the line that is wrong.
    """
    return [pair(line, first, second) for line in lines(text)]


def pair(line: str, first: Range, second: Range) -> list[float]:
    bare = re.sub(r"(?<=\d)\s*(mm|%)", " ", line.translate(MINUS), flags=re.IGNORECASE)
    pieces = [piece for piece in re.split(r"[\s:;|=]+|,(?=\s)|(?<=\s),", bare.strip()) if piece]
    if len(pieces) == 1 and pieces[0].count(",") == 1:
        pieces = pieces[0].split(",")
    if len(pieces) != 2:
        raise NotReadable(
            f"‘{line[:30]}’ should be two figures: {first.what} and {second.what}, such as ‘0.5 62’."
        )
    return [
        of.keep(figure(piece.replace(",", "."), of))
        for piece, of in zip(pieces, (first, second), strict=True)
    ]


def shares(text: str) -> list[list]:
    """A name and its share a line: "browntop bent 40 %".

    Raises NotReadable for a line without a share, and when they exceed 100 % together.
    """
    found = [share(line) for line in lines(text)]
    together = sum(percent for _, percent in found)
    if together > 100.5:
        raise NotReadable(f"These shares add up to {amount(together, '%')}; they cannot exceed 100 %.")
    return found


def share(line: str) -> list:
    match = LINE.fullmatch(re.sub(r"(?<=\d),(?=\d)", ".", line.translate(MINUS)).strip())
    if match is None or not FIGURE.fullmatch(match["figure"]):
        raise NotReadable(f"‘{line[:30]}’ should be a name and its share, such as ‘browntop bent 40’.")
    of = Range(f"the share of {match['words'][:40]}", "%", 0, 100)
    return [match["words"][:80].rstrip(" :;,=|-"), of.keep(float(match["figure"]))]


def lines(text: str) -> list[str]:
    found = [line for line in text.splitlines() if line.strip()]
    if len(found) > 60:
        raise NotReadable(f"These are {len(found)} lines; at most 60 can be kept.")
    return found
