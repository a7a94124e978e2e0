"""The seed mix of a rebuild."""

from django.shortcuts import redirect, render

from greens.access import Right, door
from greens.actions import seed as actions
from greens.forms.seed import SeedMix, as_initial


@door(Right.MANAGE)
def seed_mix(request, here, establishment):
    rows = list(establishment.seed_lines.all())
    form = SeedMix(request.POST or None, initial=as_initial(rows), kept=len(rows))
    if request.method == "POST" and form.is_valid():
        actions.set_seed_mix(establishment=establishment, by=here.member, lines=form.lines())
        return redirect("rebuild", here.club.slug, establishment.pk)
    context = {"form": form, "green": establishment.green, "establishment": establishment}
    return render(request, "greens/seed/sheet.html", context)
