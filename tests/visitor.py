"""Somebody at a browser, as far as a form goes: keeps cookies and sends what the page asked for."""

import re
from http.cookiejar import CookieJar
from urllib.parse import urlencode
from urllib.request import HTTPCookieProcessor, build_opener

TOKEN = re.compile(r'name="csrfmiddlewaretoken" value="(\w+)"')


class Visitor:
    def __init__(self, port: int):
        self.home = f"http://127.0.0.1:{port}"
        self.opener = build_opener(HTTPCookieProcessor(CookieJar()))

    def look_at(self, path: str) -> str:
        with self.opener.open(self.home + path, timeout=60) as answer:
            return answer.read().decode()

    def fill_in(self, path: str, **said: str) -> str:
        """Send the form of a page; the page that it leads to. Raises HTTPError."""
        token = TOKEN.search(self.look_at(path))[1]
        sent = urlencode(said | {"csrfmiddlewaretoken": token}).encode()
        with self.opener.open(self.home + path, sent, timeout=60) as answer:
            return answer.read().decode()
