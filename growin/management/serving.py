"""Serving the site from this process, with a worker beside it, until Ctrl-C or TERM."""

import signal

from django.conf import settings
from django.core.management.base import CommandError
from django.core.servers.basehttp import get_internal_wsgi_application
from waitress import create_server

from growin.management.worker import worker_beside

THREADS = 6


def serve(host: str, port: int, started=lambda: None) -> None:
    """Blocks; ends without a traceback on Ctrl-C and on TERM. ``started`` is called once the port is ours.

    Raises
    ------
    CommandError
        When the port cannot be had.
    """
    signal.signal(signal.SIGTERM, signal.default_int_handler)
    server = bound(host, port)
    try:
        with worker_beside():
            started()
            server.run()
    except KeyboardInterrupt:
        pass
    finally:
        server.close()


def bound(host: str, port: int):
    how = {"threads": THREADS, "ident": None, "clear_untrusted_proxy_headers": not settings.PROXIES}
    try:
        return create_server(get_internal_wsgi_application(), host=host, port=port, **how)
    except OSError as refused:
        raise CommandError(
            f"{host}:{port} cannot be had ({refused.strerror}); choose another port with --port."
        ) from None
