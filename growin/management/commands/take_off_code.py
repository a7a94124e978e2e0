"""``manage.py take_off_code``: for somebody who lost phone and spare codes both."""

from django.core.management.base import BaseCommand, CommandError

from greens.actions import people, second_step
from greens.queries.people import by_email


class Command(BaseCommand):
    help = "Ask no code beside the password of this person any more. Be sure first that it is they who ask."

    def add_arguments(self, parser):
        parser.add_argument("email")

    def handle(self, *, email, **options):
        person = by_email(email)
        if person is None:
            raise CommandError(f"Nobody signs in as {email}.")
        if not second_step.take_off(person=person):
            raise CommandError(f"No code is asked of {email}.")
        people.tell_of_sign_in(person=person, what="asks for no code beside the password any more")
        self.stdout.write(f"{person.name} signs in with the password alone now.")
