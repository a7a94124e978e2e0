"""One file that holds a whole site: the database, the files of all clubs, and a list of what must be in it.

The list comes last, so that an archive which broke off half-way has none and is no archive.
"""

import json
import os
import tarfile
import zlib
from collections.abc import Iterator
from dataclasses import asdict, dataclass
from hashlib import sha256
from io import BytesIO
from pathlib import Path

from greens.queries.tables import Sum
from greens.shelf import Place, everything

DATABASE, FILES, CONTENTS = "database", "files/", "contents.json"
UNREADABLE = (tarfile.TarError, OSError, EOFError, zlib.error, ValueError, KeyError)
ONLY_MINE = 0o600
PIECE = 1 << 20


class Broken(ValueError):
    """An archive that does not hold what it should; the message is for people."""


@dataclass(frozen=True)
class Contents:
    """The list at the end: which database, its tables, and every member with its checksum."""

    made_at: str
    vendor: str
    tables: dict[str, Sum]
    members: dict[str, str]

    @classmethod
    def read(cls, text: bytes) -> "Contents":
        said = json.loads(text)
        tables = {name: Sum(**one) for name, one in said.pop("tables").items()}
        return cls(tables=tables, **said)


class Hashed:
    """A stream that sums up what is read from it, and writes it on where that is wanted."""

    def __init__(self, stream, onto=None):
        self.stream, self.onto, self.digest = stream, onto, sha256()

    def read(self, size: int = -1) -> bytes:
        piece = self.stream.read(size)
        self.digest.update(piece)
        if self.onto:
            self.onto.write(piece)
        return piece

    def to_its_end(self) -> str:
        while self.read(PIECE):
            pass
        return self.digest.hexdigest()


def write(to: Path, *, made_at: str, vendor: str, copy: Path, tables: dict[str, Sum]) -> Contents:
    """Pack the copy of the database, then all files: one that came after the copy does no harm."""
    handle = os.open(to, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, ONLY_MINE)
    with os.fdopen(handle, "wb") as out, tarfile.open(fileobj=out, mode="w:gz", compresslevel=1) as archive:
        with copy.open("rb") as stream:
            members = {DATABASE: pack(archive, DATABASE, stream, copy.stat().st_size)}
        members |= dict(pack_files(archive))
        contents = Contents(made_at, vendor, tables, members)
        said = json.dumps(asdict(contents), indent=1).encode()
        pack(archive, CONTENTS, BytesIO(said), len(said))
    return contents


def pack_files(archive: tarfile.TarFile) -> Iterator[tuple[str, str]]:
    for place in everything():
        try:
            with place.open() as stream:
                name = f"{FILES}{place.name}"
                yield name, pack(archive, name, stream, stream.size)
        except FileNotFoundError:
            continue  # somebody took it away since it was listed


def pack(archive: tarfile.TarFile, name: str, stream, size: int) -> str:
    member, hashed = tarfile.TarInfo(name), Hashed(stream)
    member.size, member.mode = size, ONLY_MINE
    archive.addfile(member, hashed)
    return hashed.digest.hexdigest()


def check(path: Path, *, copy: Path) -> Contents:
    """Read an archive to its end and hold it against its list; the database is laid at ``copy``.

    Raises Broken.
    """
    found, contents = {}, None
    try:
        for name, stream in members(path):
            if name == CONTENTS:
                contents = Contents.read(stream.read())
            elif name == DATABASE:
                with copy.open("wb") as out:
                    found[name] = Hashed(stream, out).to_its_end()
            else:
                found[name] = Hashed(stream).to_its_end()
    except UNREADABLE as failed:
        raise Broken(f"{path.name} cannot be read to its end: {failed}.") from failed
    if contents is None:
        raise Broken(f"{path.name} has no list of contents; it broke off while it was made.")
    if found != contents.members:
        wrong = sorted(dict(found.items() ^ contents.members.items()))
        raise Broken(f"{path.name} does not hold what it should; the first that differs is {wrong[0]}.")
    return contents


def members(path: Path) -> Iterator[tuple[str, object]]:
    with tarfile.open(path, "r:gz") as archive:
        for member in archive:
            yield member.name, archive.extractfile(member)


def put_files_back(path: Path) -> int:
    """Every file of every club, under its own name; others that lie there stay."""
    count = 0
    for name, stream in members(path):
        if name.startswith(FILES):
            Place(name.removeprefix(FILES)).take_in(stream)
            count += 1
    return count
