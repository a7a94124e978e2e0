"""Pages about oneself: password, the code beside it, where one is signed in, what is kept."""

from django.urls import path

from greens.views import leaving, second_step, you

CODE = "you/code/"

urlpatterns = [
    path("sign-in/code/", second_step.give_code, name="give_code"),
    path("you/", you.you, name="you"),
    path("you/password/", you.password, name="change_password"),
    path("you/signed-in/end/", you.end_device, name="end_device"),
    path("you/signed-in/end-others/", you.end_others, name="end_other_devices"),
    path("you/about-you.zip", leaving.about_you, name="about_you"),
    path("you/erase/", leaving.erase, name="erase_me"),
    path(CODE, second_step.second_step, name="second_step"),
    path(f"{CODE}begin/", second_step.begin, name="begin_code"),
    path(f"{CODE}set-up/", second_step.set_up, name="set_up_code"),
    path(f"{CODE}key.svg", second_step.key_picture, name="code_key"),
    path(f"{CODE}spare/", second_step.spare_codes, name="spare_codes"),
    path(f"{CODE}off/", second_step.take_off, name="take_off_code"),
]
