"""A bare page from the same stack and of a page's weight: our frame, a table, a form, and nothing else.

No query, no sum, nobody signed in. It has 50 rows and 16 fields; where the page beside it has more
fields, or more bytes, it has as many.
"""

from datetime import date
from functools import cache

from django import forms
from django.http import HttpResponse
from django.template import engines
from django.urls import include, path

from greens.forms.sheet import DayField, QuantityField, Sheet

ROWS, FIELDS = 50, 16
ROW = {"what": "Cut", "where": "Seventh", "who": "Callum Reed", "height_mm": 5.5, "state": "not known"}
KINDS = [("cut", "Cut"), ("roll", "Rolled"), ("feed", "Fed")]


class Plain(Sheet):
    """A day, a choice, a line of text and a note; the rest are figures."""

    on = DayField()
    kind = forms.ChoiceField(choices=KINDS)
    name = forms.CharField(max_length=80)
    note = forms.CharField(widget=forms.Textarea, required=False)


@cache
def form_of(fields: int) -> type[Plain]:
    numbers = range(1, fields - len(Plain.base_fields) + 1)
    figures = {f"depth_{number}_mm": QuantityField(unit="mm", low=0, high=400) for number in numbers}
    return type("Sized", (Plain,), figures)


PAGE = """{% extends "greens/page.html" %}{% load words %}
{% block title %}Bare{% endblock %}{% block heading %}Bare{% endblock %}
{% block content %}
<table class="ruled">
<thead><tr><th>Day</th><th>What</th><th>Where</th><th>Who</th><th>mm</th><th>State</th></tr></thead>
<tbody>{% for row in rows %}<tr><td>{{ row.on|day }}</td>
<td><a href="{% url 'bare' 1 1 %}">{{ row.what }}</a></td>
<td>{{ row.where }}</td><td>{{ row.who }}</td>
<td class="figure">{{ row.height_mm|figure }}</td>
<td>{% state row.state %}</td></tr>{% endfor %}</tbody></table>
{% include "greens/_form.html" with form=form button="Keep" %}
{% endblock %}"""
TEMPLATE = engines["django"].from_string(PAGE)


def bare(request, rows: int, fields: int) -> HttpResponse:
    filled = [ROW | {"on": date(2026, 4, 16)}] * rows
    return HttpResponse(TEMPLATE.render({"rows": filled, "form": form_of(fields)()}, request))


urlpatterns = [
    path("bare/<int:rows>/<int:fields>/", bare, name="bare"),
    path("", include("greens.config.urls")),
]
