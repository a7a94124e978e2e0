"""The code beside the password: set up, turned on, asked, taken off.

Source: RFC 6238 with its usual choices: HMAC-SHA-1, six digits, half minutes; RFC 4226 below it.
"""

import base64
import secrets
from hashlib import sha256

import pyotp
from cryptography.fernet import Fernet, InvalidToken, MultiFernet
from django.conf import settings
from django.db import transaction
from django.utils import timezone

from greens.models import Person, SecondStep, SpareCode
from greens.models.link import hashed

#: Clocks of phones and the way to us: one half minute either side (RFC 6238, 5.2).
DRIFT = (0, -1, 1)
DIGITS, HALF_MINUTE_S = 6, 30
SPARE_CODES, SPARE_DIGITS, GROUP = 10, 20, 4
ISSUER = "The greens record"


@transaction.atomic
def begin(*, person: Person) -> SecondStep:
    """A new key to be scanned; one that was begun before and never turned on is forgotten."""
    SecondStep.objects.filter(person=person, on_since=None).delete()
    new = {"sealed_key": seal(pyotp.random_base32()), "made_at": timezone.now()}
    return SecondStep.objects.get_or_create(person=person, defaults=new)[0]


@transaction.atomic
def turn_on(*, step: SecondStep, code: str) -> list[str]:
    """Ask for a code from now on; returns the spare codes, or nothing where the code is not right."""
    if not take_count(step, digits_of(code)):
        return []
    SecondStep.objects.filter(pk=step.pk).update(on_since=timezone.now())
    return new_spare_codes(step=step)


@transaction.atomic
def new_spare_codes(*, step: SecondStep) -> list[str]:
    """Ten that were never shown before; the old ones open nothing any more."""
    step.spare_codes.all().delete()
    codes = ["".join(secrets.choice("0123456789") for _ in range(SPARE_DIGITS)) for _ in range(SPARE_CODES)]
    SpareCode.objects.bulk_create(SpareCode(step=step, code_hash=hashed(code)) for code in codes)
    return [grouped(code) for code in codes]


def is_right(*, step: SecondStep, code: str) -> bool:
    """Whether this code opens now; it does so once."""
    digits = digits_of(code)
    return take_spare(step, digits) if len(digits) == SPARE_DIGITS else take_count(step, digits)


def take_off(*, person: Person) -> bool:
    """The password alone is enough again; false where it was."""
    return bool(SecondStep.objects.filter(person=person).delete()[0])


def take_spare(step: SecondStep, digits: str) -> bool:
    unused = step.spare_codes.filter(code_hash=hashed(digits), used_at=None)
    return unused.update(used_at=timezone.now()) == 1


def take_count(step: SecondStep, digits: str) -> bool:
    """A code of this half minute or the one beside it, later than the last that was taken."""
    count = count_of(key_of(step), digits, int(timezone.now().timestamp()))
    if count is None:
        return False
    later = SecondStep.objects.filter(pk=step.pk, last_count__lt=count)
    return later.update(last_count=count) == 1


def count_of(key: str, digits: str, at: int) -> int | None:
    """The number of the half minute whose code this is, near the moment ``at``; none for a wrong one."""
    if not key or len(digits) != DIGITS:
        return None
    near = (at // HALF_MINUTE_S + by for by in DRIFT)
    return next((one for one in near if secrets.compare_digest(code_at(key, one), digits)), None)


def code_at(key: str, count: int) -> str:
    """The code of one half minute, by its number since 1970."""
    return pyotp.TOTP(key, digits=DIGITS, interval=HALF_MINUTE_S).generate_otp(count)


def address_of(step: SecondStep) -> str:
    """What an authenticator scans."""
    return pyotp.TOTP(key_of(step)).provisioning_uri(name=step.person.email, issuer_name=ISSUER)


def key_of(step: SecondStep) -> str:
    """The key in base 32; empty where the site's own key was changed since and it cannot be read."""
    try:
        return sealer().decrypt(step.sealed_key.encode()).decode()
    except InvalidToken:
        return ""


def seal(text: str) -> str:
    return sealer().encrypt(text.encode()).decode()


def sealer() -> MultiFernet:
    """By the site's key, which stands in no database: a stolen copy of one gives no codes."""
    keys = (settings.SECRET_KEY, *settings.SECRET_KEY_FALLBACKS)
    return MultiFernet(
        [Fernet(base64.urlsafe_b64encode(sha256(f"codes:{one}".encode()).digest())) for one in keys]
    )


def digits_of(code: str) -> str:
    return "".join(one for one in code if one in "0123456789")


def grouped(digits: str) -> str:
    """1234 5678 …: as it is written on paper."""
    return " ".join(digits[at : at + GROUP] for at in range(0, len(digits), GROUP))
