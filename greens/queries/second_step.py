"""Codes at sign-in."""

from greens.models import Person, SecondStep


def of(person: Person) -> SecondStep | None:
    """What is asked of this person beside the password; none for most."""
    return SecondStep.objects.filter(person=person).exclude(on_since=None).first()


def being_set_up(person: Person) -> SecondStep | None:
    return SecondStep.objects.filter(person=person, on_since=None).first()


def spare_left(step: SecondStep) -> int:
    return step.spare_codes.filter(used_at=None).count()
