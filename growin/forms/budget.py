"""Which nutrient is asked for, and in which form."""

from collections.abc import Mapping
from dataclasses import dataclass

from growin.queries.budget import OXIDE_OF, SHOWN

ELEMENT, OXIDE = "element", "oxide"


@dataclass(frozen=True)
class Asked:
    """An element, shown as itself or as its oxide: ``factor`` makes one of the other."""

    element: str
    as_oxide: bool = False

    @property
    def sign(self) -> str:
        """ "K", or "K2O" where it is shown so."""
        return OXIDE_OF[self.element][0] if self.as_oxide else self.element

    @property
    def words(self) -> str:
        """ "potassium, as K2O"."""
        return f"{SHOWN[self.element]}{f', as {self.sign}' if self.as_oxide else ''}"

    @property
    def factor(self) -> float:
        return 1 / OXIDE_OF[self.element][1] if self.as_oxide else 1.0


def asked(sent: Mapping) -> Asked:
    """What the address asks for; nitrogen as the element where it asks for nothing that there is."""
    element = sent.get("of", "")
    element = element if element in SHOWN else "N"
    return Asked(element, sent.get("as") == OXIDE and element in OXIDE_OF)
