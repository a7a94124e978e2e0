"""Places that the tests of the programme use, by their monthly means in °C, January first."""

#: Northern England, from memory.
ENGLAND = (4.0, 4.3, 6.2, 8.5, 11.5, 14.4, 16.5, 16.3, 13.9, 10.4, 6.8, 4.4)
#: The same place carried to the other side of the equator: July for January.
ENGLAND_MIRRORED = ENGLAND[6:] + ENGLAND[:6]
#: A continental place with a hard winter.
HARD_WINTER = (-10.4, -8.2, -2.6, 5.2, 11.3, 15.1, 17.7, 16.6, 11.4, 5.0, -4.0, -9.6)
