"""What the site writes about itself never holds the secret of an address."""

import logging
import re

#: What follows these words in a path is known to one person only.
SECRET = re.compile(r"(?<![\w-])/(calendar|new-password|invitation|no-more-mail)/[^/\s?]+")


class SecretsLeftOut(logging.Filter):
    """Puts three dots where a line would tell a secret."""

    def filter(self, record: logging.LogRecord) -> bool:
        record.msg = hidden(record.msg)
        if isinstance(record.args, tuple):
            record.args = tuple(map(hidden, record.args))
        return True


def hidden(part):
    return SECRET.sub(r"/\1/…", part) if isinstance(part, str) else part
