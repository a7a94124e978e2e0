"""The two invented clubs: one on a northern coast, one on a southern, the same people at both."""

from dataclasses import dataclass

from greens.choices import Role

PASSWORD = "gorse-and-heather"
HEAD, STAFF, COMMITTEE, ADVISER = "Isla Rowan", "Callum Reed", "Maeve Thorn", "Bram Hazel"
BY_NAME = "Young Tam"
SIGNING_IN = {HEAD: Role.HEAD, STAFF: Role.STAFF, COMMITTEE: Role.COMMITTEE, ADVISER: Role.ADVISER}
RAIN_MM = (78, 58, 61, 54, 55, 66, 68, 79, 72, 84, 87, 83)


@dataclass(frozen=True)
class Place:
    name: str
    latitude_deg: float
    time_zone: str
    normals_c: tuple[float, ...]


NORTH = Place(
    "Ternmoor Links",
    54.0,
    "Europe/London",
    (4.0, 4.3, 6.2, 8.5, 11.5, 14.4, 16.5, 16.3, 13.9, 10.4, 6.8, 4.4),
)
SOUTH = Place(
    "Saltgrass Bay",
    -44.5,
    "Pacific/Auckland",
    (16.5, 16.3, 13.9, 10.4, 6.8, 4.4, 4.0, 4.3, 6.2, 8.5, 11.5, 14.4),
)


def email(name: str) -> str:
    """isla@example.org for Isla Rowan."""
    return f"{name.split()[0].lower()}@example.org"
