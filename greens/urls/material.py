"""Materials of a club."""

from django.urls import path

from greens.views import material

urlpatterns = [
    path("materials/", material.materials, name="materials"),
    path("materials/new/", material.material_new, name="material_new"),
    path("materials/<int:material_id>/", material.material, name="material"),
]
