"""Draws programmes for the tests, with every setting at its default."""

from datetime import date

from growin.agronomy.climate import Climate
from growin.agronomy.programme import GreenFacts, default_settings, draw_programme
from tests.agronomy.climates import ENGLAND

SETTINGS = default_settings()
AUTUMN = date(2025, 10, 20)


def facts(
    establishment="turf_relaid", species="fescue/bent", established_on=AUTUMN, latitude_deg=54.0, **more
):
    return GreenFacts(450, establishment, species, established_on, latitude_deg, **more)


def drawn(green, normals_c=ENGLAND, daily=None, until=None):
    return draw_programme(green, Climate(normals_c, daily=daily or {}), SETTINGS, until=until)


def by_key(steps):
    return {step.key: step for step in steps}


def likely(steps, start):
    """Likely days of the steps whose key begins so."""
    return {step.key: step.likely for step in steps if step.key.startswith(start)}


def shapes(steps, *leaving_out):
    """What a programme says, without the chains named."""
    return {step.key: (step.likely, step.amount) for step in steps if not step.key.startswith(leaving_out)}
