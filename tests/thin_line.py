"""A thin line between phones and a site: it may be dead, or lose the site's answer once the work is done."""

import socket
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress

from tests.services import free_port

CHUNK = 65_536


class Line:
    """Passes everything on, both ways, to the site at ``port``.

    ``loses`` says how many more answers to something sent are lost on the way; ``and_then`` is done each
    time, when the site has begun to answer and the phone knows nothing of it.
    """

    def __init__(self, port: int):
        self.port, self.loses, self.and_then = port, 0, lambda: None
        self.own = free_port()
        self.lock = threading.Lock()

    @property
    def address(self) -> str:
        return f"http://127.0.0.1:{self.own}"

    def lose(self, count: int, and_then: Callable = lambda: None) -> None:
        self.loses, self.and_then = count, and_then

    def carry(self, phone: socket.socket) -> None:
        with phone, suppress(OSError), socket.create_connection(("127.0.0.1", self.port)) as site:
            heard = {"is_post": False}
            there = threading.Thread(target=self.there, args=(phone, site, heard), daemon=True)
            there.start()
            try:
                self.back(site, phone, heard)
            finally:
                phone.shutdown(socket.SHUT_RDWR)

    def there(self, phone: socket.socket, site: socket.socket, heard: dict) -> None:
        with suppress(OSError):
            while part := phone.recv(CHUNK):
                if part.startswith((b"POST ", b"GET ")):
                    heard["is_post"] = part.startswith(b"POST ") and b"x-pocket" in part.lower()
                site.sendall(part)
            site.shutdown(socket.SHUT_WR)

    def back(self, site: socket.socket, phone: socket.socket, heard: dict) -> None:
        while part := site.recv(CHUNK):
            if heard["is_post"] and self.is_lost():
                self.and_then()
                return
            phone.sendall(part)

    def is_lost(self) -> bool:
        with self.lock:
            is_lost = self.loses > 0
            self.loses -= is_lost
            return is_lost


@contextmanager
def line_to(port: int) -> Iterator[Line]:
    """A line that lives as long as the block."""
    line = Line(port)
    with socket.create_server(("127.0.0.1", line.own)) as door:
        threading.Thread(target=answer, args=(door, line), daemon=True).start()
        yield line


def answer(door: socket.socket, line: Line) -> None:
    with suppress(OSError):
        while True:
            phone, _ = door.accept()
            threading.Thread(target=line.carry, args=(phone,), daemon=True).start()
