"""What was worked out, kept in Redis for all web processes; a site whose Redis is away works it out anew."""

import hmac
import pickle
from collections.abc import Callable
from time import monotonic

from django.core.cache.backends.base import BaseCache
from django.core.cache.backends.redis import RedisCache, RedisCacheClient
from django.utils.crypto import salted_hmac
from redis import RedisError
from redis.backoff import NoBackoff
from redis.retry import Retry

#: So long nobody asks a Redis that was away.
LEFT_ALONE_S = 5
SEAL_BYTES = 32


class AsItIs:
    """What is kept is bytes already."""

    @staticmethod
    def dumps(value: bytes) -> bytes:
        return value

    loads = dumps


class Client(RedisCacheClient):
    """Seals what it keeps, believes only its own seal, and never lets a page fail."""

    def __init__(self, servers, **options):
        once = {"retry": Retry(NoBackoff(), 0)}
        super().__init__(servers, **once | options | {"serializer": AsItIs()})
        self._asked_again_at = 0.0

    def get(self, key: str, default):
        return opened(key, self._asked(super().get, key, None), default)

    def add(self, key: str, value, timeout) -> bool:
        return self._asked(super().add, key, sealed(key, value), timeout) or False

    def set(self, key: str, value, timeout) -> None:
        self._asked(super().set, key, sealed(key, value), timeout)

    def _asked(self, ask: Callable, *how):
        """What Redis answers; None while it is away."""
        if monotonic() < self._asked_again_at:
            return None
        try:
            return ask(*how)
        except RedisError:
            self._asked_again_at = monotonic() + LEFT_ALONE_S
            return None


class Shared(RedisCache):
    """What asks for several at once, or counts, goes through the seal too."""

    get_many, set_many = BaseCache.get_many, BaseCache.set_many
    has_key, incr = BaseCache.has_key, BaseCache.incr

    def __init__(self, server: str, params: dict):
        super().__init__(server, params)
        self._class = Client


def sealed(key: str, value) -> bytes:
    """A value as bytes that only a site with our signing key can have made, for this key alone."""
    said = pickle.dumps(value, pickle.HIGHEST_PROTOCOL)
    return seal(key, said) + said


def opened(key: str, kept: bytes | None, default):
    """The value under its seal. Whoever gets into Redis can so neither have code run nor exchange answers."""
    if kept is None or not hmac.compare_digest(kept[:SEAL_BYTES], seal(key, kept[SEAL_BYTES:])):
        return default
    return pickle.loads(kept[SEAL_BYTES:])


def seal(key: str, said: bytes) -> bytes:
    return salted_hmac(key, said, algorithm="sha256").digest()
