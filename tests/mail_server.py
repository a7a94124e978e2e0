"""A mail server on this machine: it counts what it took, and is slow, refuses or hangs up as it is told."""

import asyncio
import threading
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from email import message_from_bytes
from email.message import EmailMessage
from email.policy import default

from aiosmtpd.controller import Controller

from tests.services import free_port

UNTIL_THE_LINE_IS_DOWN_S = 60


@dataclass
class Post:
    """What one server took, and how it behaves from now on.

    It takes a mail only at the end of DATA: whoever is gone by then has left nothing with it.
    """

    port: int
    taken: list[EmailMessage] = field(default_factory=list)
    #: Each time somebody signed on.
    greeted: int = 0
    #: Seconds before it takes a mail, and seconds after it took one before it says so.
    thinks_s: float = 0
    keeps_quiet_s: float = 0
    #: How often an address is refused for now; addresses where nobody lives.
    busy: Counter[str] = field(default_factory=Counter)
    unknown: set[str] = field(default_factory=set)
    #: Where it hangs up, once for each address: {"somebody@example.org": "RCPT"}.
    hangs_up: dict[str, str] = field(default_factory=dict)
    thinking: threading.Event = field(default_factory=threading.Event)

    @property
    def url(self) -> str:
        return f"smtp://127.0.0.1:{self.port}"

    @property
    def copies(self) -> Counter[str]:
        """How often each Message-ID was taken."""
        return Counter(str(mail["Message-ID"]) for mail in self.taken)

    @property
    def addresses(self) -> Counter[str]:
        return Counter(str(mail["To"]) for mail in self.taken)

    async def handle_EHLO(self, server, session, envelope, hostname, responses):
        session.host_name = hostname
        self.greeted += 1
        return responses

    async def handle_RCPT(self, server, session, envelope, address, options):
        await self._hang_up(server, address, "RCPT")
        if address in self.unknown:
            return "550 5.1.1 Nobody of that name lives here"
        if self.busy[address] > 0:
            self.busy[address] -= 1
            return "451 4.3.2 Not now, try again later"
        envelope.rcpt_tos.append(address)
        return "250 OK"

    async def handle_DATA(self, server, session, envelope):
        self.thinking.set()
        await self._hang_up(server, envelope.rcpt_tos[0], "DATA")
        await asyncio.sleep(self.thinks_s)
        self.taken.append(message_from_bytes(envelope.content, policy=default))
        await asyncio.sleep(self.keeps_quiet_s)
        return "250 Taken"

    async def _hang_up(self, server, address: str, command: str) -> None:
        if self.hangs_up.get(address) == command:
            del self.hangs_up[address]
            server.transport.abort()
            await asyncio.sleep(UNTIL_THE_LINE_IS_DOWN_S)


@contextmanager
def post() -> Iterator[Post]:
    """A mail server for as long as the block lasts."""
    one = Post(free_port())
    controller = Controller(one, hostname="127.0.0.1", port=one.port)
    controller.start()
    try:
        yield one
    finally:
        controller.stop()
