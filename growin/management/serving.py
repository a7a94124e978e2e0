"""Serving the site from this process until Ctrl-C or TERM."""

import signal

from django.core.wsgi import get_wsgi_application
from waitress import create_server

THREADS = 6


def serve(host: str, port: int) -> None:
    """Blocks; ends without a traceback on Ctrl-C and on TERM."""
    server = create_server(get_wsgi_application(), host=host, port=port, threads=THREADS, ident=None)
    signal.signal(signal.SIGTERM, signal.default_int_handler)
    try:
        server.run()
    except KeyboardInterrupt:
        pass
    finally:
        server.close()
