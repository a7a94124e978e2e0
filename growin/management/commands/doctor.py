"""``manage.py doctor``: examine an installation, say what is wrong and what would be right."""

from django.core.management.base import BaseCommand, CommandError

from growin.agronomy.plain_words import counted
from growin.management.doctor.finding import State
from growin.management.doctor.rounds import findings


class Command(BaseCommand):
    help = "Examine this installation; ends with 1 if anything is wrong."
    requires_system_checks = ()

    def handle(self, **options):
        wrong = 0
        for name, found in findings():
            wrong += found.state is State.WRONG
            self.stdout.write(f"{found.state.value:<10} {name:<14} {found.words}")
            if found.right:
                self.stdout.write(f"{'':<10} {'':<14} Right would be: {found.right}")
        if wrong:
            raise CommandError(f"{counted(wrong, 'things')} {'is' if wrong == 1 else 'are'} wrong.")
        self.stdout.write("Nothing is wrong.")
