"""Property tests measure sums, not the machine: a busy one may take its time."""

from hypothesis import settings

settings.register_profile("house", deadline=None)
settings.load_profile("house")
