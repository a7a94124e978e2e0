"""A mail server that takes nothing."""

from smtplib import SMTPServerDisconnected

from django.core.mail.backends.base import BaseEmailBackend


class Mailbox(BaseEmailBackend):
    def send_messages(self, messages):
        raise SMTPServerDisconnected("No mail today.")
