"""Behind proxies of ours the visitor's address is the one that they saw, whatever the visitor claims."""

import pytest
from django.http import HttpResponse
from django.test import RequestFactory

from greens.middleware import seen_by_the_proxy

PROXY, VISITOR, CLAIMED = "172.18.0.2", "192.0.2.7", "203.0.113.9"


@pytest.mark.parametrize(
    ("proxies", "forwarded", "address"),
    [
        (0, VISITOR, PROXY),
        (1, VISITOR, VISITOR),
        (1, f"{CLAIMED}, {VISITOR}", VISITOR),
        (2, f"{CLAIMED}, {VISITOR}, 198.51.100.1", VISITOR),
        (2, VISITOR, PROXY),
        (1, "", PROXY),
    ],
)
def test_the_last_address_that_a_proxy_of_ours_wrote_down_counts(settings, proxies, forwarded, address):
    settings.PROXIES = proxies
    request = RequestFactory(REMOTE_ADDR=PROXY).get("/", headers={"X-Forwarded-For": forwarded})
    seen_by_the_proxy(lambda request: HttpResponse())(request)
    assert request.META["REMOTE_ADDR"] == address
