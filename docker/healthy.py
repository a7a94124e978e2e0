"""Whether the web process of this container answers; the exit status says it."""

import os
import urllib.request

PORT = os.environ.get("GREENS_PORT", "8000")
HOST = os.environ.get("GREENS_HOSTS", "localhost").split(",")[0]

request = urllib.request.Request(f"http://127.0.0.1:{PORT}/healthz", headers={"Host": HOST})
with urllib.request.urlopen(request, timeout=4):
    pass
