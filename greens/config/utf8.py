"""What is done to a request before Django reads it."""

import re

CHARSET = re.compile(r";\s*charset\s*=[^;]*", re.IGNORECASE)


def in_utf8(application):
    """Around the whole site: our forms are UTF-8, and what claims another charset is read as that too.

    Some that Python knows (idna) break the reading of a request before anything could refuse it.
    """

    def answer(environ, start_response):
        environ["CONTENT_TYPE"] = CHARSET.sub("", environ.get("CONTENT_TYPE", ""))
        return application(environ, start_response)

    return answer
