"""A green's record: its particulars and areas, its rebuilds, what hangs on them."""

from django.urls import path

from greens.views import (
    advice,
    area,
    build,
    defect,
    establishment,
    file,
    green,
    irrigation,
    record,
    seed,
    turf,
)

urlpatterns = [
    path("greens/new/", green.green_new, name="green_new"),
    path("greens/<int:green_id>/record/", record.record, name="record"),
    path("greens/<int:green_id>/record/green/", green.green_change, name="green_change"),
    path("greens/<int:green_id>/record/area/", area.area, name="area"),
    path("greens/<int:green_id>/record/rebuild/", establishment.rebuild_new, name="rebuild_new"),
    path("greens/<int:green_id>/record/photograph/", file.photograph_new, name="photograph_new"),
    path("greens/<int:green_id>/record/document/", file.document_new, name="document_new"),
    path("greens/<int:green_id>/record/advice/", advice.advice_new, name="advice_new"),
    path("rebuilds/<int:establishment_id>/", record.rebuild, name="rebuild"),
    path("rebuilds/<int:establishment_id>/dates/", establishment.rebuild_change, name="rebuild_change"),
    path("rebuilds/<int:establishment_id>/layers/", build.build, name="build"),
    path("rebuilds/<int:establishment_id>/drains/", build.drains, name="drains"),
    path("rebuilds/<int:establishment_id>/irrigation/", irrigation.irrigation, name="irrigation"),
    path("rebuilds/<int:establishment_id>/turf/", turf.turf, name="turf"),
    path("rebuilds/<int:establishment_id>/seed/", seed.seed_mix, name="seed_mix"),
    path("rebuilds/<int:establishment_id>/defect/", defect.defect_new, name="defect_new"),
    path("defects/<int:defect_id>/", defect.defect, name="defect"),
    path("defects/<int:defect_id>/put-right/", defect.put_right, name="put_right"),
]
