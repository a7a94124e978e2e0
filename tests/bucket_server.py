"""A bucket of object storage of this machine: as much of the open S3 protocol as our shelf speaks.

It keeps objects in memory, answers over HTTP, and refuses who does not sign with the right key's name.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from threading import Thread
from urllib.parse import parse_qs, unquote
from xml.sax.saxutils import escape

from waitress import create_server

KEY, SECRET, BUCKET = "KEYOFTHECLUBS", "a/secret+with=signs", "greens"
XML = [("Content-Type", "application/xml")]


class Bucket:
    """The objects by their names, and every request as "METHOD name"."""

    def __init__(self):
        self.objects: dict[str, bytes] = {}
        self.asked: list[str] = []

    def __call__(self, environ, start_response):
        name = unquote(environ["PATH_INFO"]).removeprefix(f"/{BUCKET}").lstrip("/")
        self.asked.append(f"{environ['REQUEST_METHOD']} {name}")
        if f"Credential={KEY}/" not in environ.get("HTTP_AUTHORIZATION", ""):
            return said(start_response, "403 Forbidden", "AccessDenied")
        answer = getattr(self, environ["REQUEST_METHOD"].lower())
        return answer(name, environ, start_response)

    def put(self, name, environ, start_response):
        self.objects[name] = environ["wsgi.input"].read(int(environ["CONTENT_LENGTH"]))
        start_response("200 OK", [("ETag", '"kept"'), ("Content-Length", "0")])
        return [b""]

    def delete(self, name, environ, start_response):
        self.objects.pop(name, None)
        start_response("204 No Content", [])
        return [b""]

    def head(self, name, environ, start_response):
        if name not in self.objects:
            start_response("404 Not Found", [("Content-Length", "0")])
            return [b""]
        size = str(len(self.objects[name]))
        start_response("200 OK", [("ETag", '"kept"'), ("Content-Length", size)])
        return [b""]

    def get(self, name, environ, start_response):
        if not name:
            return self.listed(parse_qs(environ["QUERY_STRING"]), start_response)
        if name not in self.objects:
            return said(start_response, "404 Not Found", "NoSuchKey")
        start_response("200 OK", [("ETag", '"kept"'), ("Content-Length", str(len(self.objects[name])))])
        return [self.objects[name]]

    def listed(self, asked: dict, start_response):
        prefix = asked.get("prefix", [""])[0]
        below = [name.removeprefix(prefix) for name in sorted(self.objects) if name.startswith(prefix)]
        files = "".join(keyed(prefix + name) for name in below if "/" not in name)
        folders = sorted({name.partition("/")[0] for name in below if "/" in name})
        inside = "".join(
            f"<CommonPrefixes><Prefix>{prefix}{one}/</Prefix></CommonPrefixes>" for one in folders
        )
        start_response("200 OK", XML)
        page = (
            f"<ListBucketResult><Name>{BUCKET}</Name><IsTruncated>false</IsTruncated>{files}{inside}"
            "</ListBucketResult>"
        )
        return [page.encode()]


def keyed(name: str) -> str:
    return f"<Contents><Key>{escape(name)}</Key><Size>1</Size></Contents>"


def said(start_response, status: str, code: str):
    start_response(status, XML)
    return [f"<Error><Code>{code}</Code></Error>".encode()]


@contextmanager
def serving() -> Iterator[tuple[Bucket, int]]:
    """A bucket and its port, for as long as the block lasts."""
    bucket = Bucket()
    server = create_server(bucket, host="127.0.0.1", port=0)
    thread = Thread(target=server.run, daemon=True)
    thread.start()
    try:
        yield bucket, server.effective_port
    finally:
        server.close()
        thread.join(5)
