"""What all tests share: the cast, a signed-in client, and a fixed day."""

from datetime import date

import pytest
from django.test import Client

from tests import cast as casting


@pytest.fixture
def today(settings):
    """Thursday 16 April 2026 at every club."""
    settings.FIXED_TODAY = date(2026, 4, 16)
    return settings.FIXED_TODAY


@pytest.fixture
def cast(db, today):
    return casting.whole_cast()


@pytest.fixture
def as_(cast):
    """``as_("staff")`` is a client signed in as that member of the cast."""

    def signed_in(role: str) -> Client:
        client = Client()
        client.force_login(cast[role].person)
        return client

    return signed_in
