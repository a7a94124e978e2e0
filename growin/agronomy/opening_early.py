"""What opening before its time does to a green, as far as it was published or is known in the trade."""

from dataclasses import dataclass

from growin.agronomy.defaults import PUBLISHED


@dataclass(frozen=True)
class Consequence:
    """One consequence in a sentence; ``species`` names those it was published of, empty: all; some
    concern turf alone."""

    words: str
    source: str
    mark: str = PUBLISHED
    species: tuple[str, ...] = ()
    of_turf: bool = False


CONSEQUENCES = (
    Consequence(
        "A green opened while immature takes at least twice as long to heal, and may not finish that season.",
        "USGA 2014",
    ),
    Consequence(
        "Young bent played too soon goes over to annual meadow-grass (Poa).",
        "USGA 2014",
        species=("creeping bent", "fescue/bent", "annual meadow grass/bent"),
    ),
    Consequence(
        "Without a thin mat ball marks explode and the edges of holes collapse.",
        "USGA",
    ),
    Consequence(
        "New turf looks ready well before it is: the look of it is no reason to open.",
        "USGA 2008, 2018, 2019",
        of_turf=True,
    ),
    Consequence(
        "One club staged its start: open on 11 of the first 18 days, closed more often when the green "
        "declined.",
        "club diary",
    ),
)


def consequences(species: str, is_turf: bool = True) -> tuple[Consequence, ...]:
    """What concerns a green of a species, laid or sown."""
    of_it = [one for one in CONSEQUENCES if not one.species or species in one.species]
    return tuple(one for one in of_it if is_turf or not one.of_turf)
