"""How gunicorn serves the site: ``gunicorn --config python:greens.config.gunicorn greens.config.wsgi``.

WEB_CONCURRENCY says how many processes (gunicorn's own variable). No line for every request is
written: it would hold secrets of addresses.
"""

import gc

from django.urls import get_resolver

from greens.config.env import env
from greens.config.quiet import SecretsLeftOut

bind = f"0.0.0.0:{env.int('GREENS_PORT', default=8000)}"
preload_app = True  # read once, shared by all processes
worker_class = "gthread"
threads = 4
timeout = 60
graceful_timeout = 30
keepalive = 130  # the proxy keeps idle connections for two minutes and must never write into a closed one
max_requests = 5_000  # memory that a library never gives back goes with its process
max_requests_jitter = 500
worker_tmp_dir = "/dev/shm"  # a slow disk never makes a living process look dead
control_socket_disable = True
accesslog = None
proc_name = "grow-in"


def on_starting(server) -> None:
    """Its own lines about what broke hold no secret of an address either; every page is read in."""
    server.log.error_log.addFilter(SecretsLeftOut())
    list(get_resolver().url_patterns)


def when_ready(server) -> None:
    """What was read in before the fork is for good: never gone through for garbage, and shared by all. A page
    makes thousands of things that go with it; garbage is looked for less often than after every 700."""
    gc.freeze()
    gc.set_threshold(20_000, 20, 20)
