"""Inviting people and giving them roles."""

from django import forms

from greens.choices import Role
from greens.forms.sheet import Sheet

WHAT_ROLES_DO = (
    "The head greenkeeper does everything but open a green; greenstaff log work and readings; "
    "the committee reads everything and decides on opening; an adviser reads and writes advice."
)


class Invite(Sheet):
    name = forms.CharField(label="Name", max_length=80)
    email = forms.EmailField(label="E-mail", max_length=254)
    role = forms.ChoiceField(
        label="Role", choices=Role.choices, widget=forms.RadioSelect, help_text=WHAT_ROLES_DO
    )


class ByName(Sheet):
    name = forms.CharField(label="Name", max_length=80)


class ChangeRole(Sheet):
    role = forms.ChoiceField(
        label="Role", choices=Role.choices, widget=forms.RadioSelect, help_text=WHAT_ROLES_DO
    )
