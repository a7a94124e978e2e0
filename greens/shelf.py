"""Where the bytes of clubs lie: in a folder, or in a bucket that several hosts share, by setting.

Nobody reaches them but through a club's door: no address of the shelf itself is ever given out.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from django.core.files.base import ContentFile, File
from django.core.files.storage import default_storage


@dataclass(frozen=True)
class Place:
    """One file by its name on the shelf; asked as a path is asked, wherever the shelf stands."""

    name: str

    @classmethod
    def of_club(cls, club_id: int, name: str) -> "Place":
        """A file of a club: each club has a folder of its own."""
        return cls(f"{club_id}/{name}")

    def open(self) -> File:
        """The bytes, to be read from any point. Raises FileNotFoundError."""
        return default_storage.open(self.name, "rb")

    def read_bytes(self) -> bytes:
        """Raises FileNotFoundError."""
        with self.open() as kept:
            return kept.read()

    def write_bytes(self, content: bytes) -> None:
        """Keep these bytes, instead of what lay there before."""
        default_storage.save(self.name, ContentFile(content))

    def take_in(self, stream) -> None:
        """Keep what a stream holds, piece by piece."""
        default_storage.save(self.name, File(stream))

    def exists(self) -> bool:
        return default_storage.exists(self.name)

    def unlink(self) -> None:
        """Take it away; nothing happens where there is none."""
        default_storage.delete(self.name)


def clear_club(club_id: int) -> None:
    """Take away all that lies there of a club, and its folder."""
    for place in everything(f"{club_id}/"):
        place.unlink()
    default_storage.delete(str(club_id))


def everything(folder: str = "") -> Iterator[Place]:
    """All that lies on the shelf, folder by folder, in the order of names."""
    try:
        folders, files = default_storage.listdir(folder)
    except FileNotFoundError:
        return
    yield from (Place(f"{folder}{name}") for name in sorted(files) if name)
    for name in sorted(folders):
        yield from everything(f"{folder}{name}/")
