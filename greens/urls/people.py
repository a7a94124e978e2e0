"""Who belongs to a club."""

from django.urls import path

from greens.views import doer, people

urlpatterns = [
    path("people/", people.people, name="people"),
    path("people/invite/", people.invite, name="invite"),
    path("people/by-name/", people.add_by_name, name="add_by_name"),
    path("people/<int:member_id>/role/", people.change_role, name="change_role"),
    path("people/<int:member_id>/shared/", people.share_device, name="share_device"),
    path("people/<int:member_id>/end/", people.end_membership, name="end_membership"),
    path("who/", doer.name_doer, name="name_doer"),
]
