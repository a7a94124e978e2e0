"""Every page of a club opens for somebody who may, and hears an empty form, on every database."""

import pytest

from tests.house.test_doors import ASKED_SO, INSIDE, LET_IN, MEMBERS, METHODS, answer
from tests.rows import rows_of

pytestmark = [pytest.mark.django_db, pytest.mark.every_database]


def test_every_page_of_a_club_opens(cast, as_):
    clients, rows = {who: as_(who) for who in MEMBERS}, rows_of(cast.head, cast.establishment)
    wrong = {}
    for one in INSIDE:
        client, path = clients[one.open_to(MEMBERS, cast)[0]], one.filled(rows) + ASKED_SO.get(one.name, "")
        said = {(how, path): answer(client, how, path).status_code for how in METHODS}
        wrong |= {visit: status for visit, status in said.items() if status not in LET_IN}
    assert wrong == {}
