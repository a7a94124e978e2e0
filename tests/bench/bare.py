"""A bare page from the same stack: our frame, 50 rows as our tables have them, 16 fields."""

from datetime import date

from django import forms
from django.http import HttpResponse
from django.template import engines
from django.urls import include, path

from greens.forms.sheet import DayField, QuantityField, Sheet

ROW = {"what": "Cut", "where": "Seventh", "who": "Callum Reed", "height_mm": 5.5, "state": "not known"}
ROWS = [ROW | {"on": date(2026, 4, 16)}] * 50
KINDS = [("cut", "Cut"), ("roll", "Rolled"), ("feed", "Fed")]


class Sixteen(Sheet):
    """Twelve figures, a day, a choice, a line of text and a note."""

    on = DayField()
    kind = forms.ChoiceField(choices=KINDS)
    name = forms.CharField(max_length=80)
    note = forms.CharField(widget=forms.Textarea, required=False)


for _number in range(1, 13):
    Sixteen.base_fields[f"depth_{_number}_mm"] = QuantityField(unit="mm", low=0, high=400)

PAGE = """{% extends "greens/page.html" %}{% load words %}
{% block title %}Bare{% endblock %}{% block heading %}Bare{% endblock %}
{% block content %}
<table class="ruled">
<thead><tr><th>Day</th><th>What</th><th>Where</th><th>Who</th><th>mm</th><th>State</th></tr></thead>
<tbody>{% for row in rows %}<tr><td>{{ row.on|day }}</td>
<td><a href="{% url 'bare' %}">{{ row.what }}</a></td><td>{{ row.where }}</td><td>{{ row.who }}</td><td class="figure">{{ row.height_mm|figure }}</td>
<td>{% state row.state %}</td></tr>{% endfor %}</tbody></table>
{% include "greens/_form.html" with form=form button="Keep" %}
{% endblock %}"""
TEMPLATE = engines["django"].from_string(PAGE)


def bare(request) -> HttpResponse:
    return HttpResponse(TEMPLATE.render({"rows": ROWS, "form": Sixteen()}, request))


urlpatterns = [path("bare/", bare, name="bare"), path("", include("greens.config.urls"))]
