"""What greens may still have: nutrients and sand, for all of them and for one."""

from django.urls import path

from growin.views import budget

urlpatterns = [
    path("budget/", budget.budgets, name="budgets"),
    path("greens/<int:green_id>/budget/", budget.budget, name="budget"),
    path("greens/<int:green_id>/budget/<slug:element>.svg", budget.picture, name="budget_picture"),
]
