"""People who sign in. What they may do hangs on their memberships, never on the person."""

from django.contrib.auth.base_user import AbstractBaseUser, BaseUserManager
from django.db import models


class PersonManager(BaseUserManager):
    def get_by_natural_key(self, email):
        return self.get(email=email.strip().lower())


class Person(AbstractBaseUser):
    """Somebody with an e-mail address; `is_operator` founds clubs by command."""

    email = models.EmailField("e-mail", unique=True, max_length=254)
    name = models.CharField(max_length=80)
    is_active = models.BooleanField(default=True)
    is_operator = models.BooleanField(default=False)
    created_at = models.DateTimeField(auto_now_add=True)

    objects = PersonManager()
    USERNAME_FIELD = "email"
    EMAIL_FIELD = "email"
    REQUIRED_FIELDS = ["name"]

    def __str__(self):
        return self.name
