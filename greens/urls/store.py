"""The store: products and their labels."""

from django.urls import path

from greens.views import file, recompute, stock, store

urlpatterns = [
    path("store/", store.store, name="store"),
    path("store/add/", store.choose_kind, name="choose_product_kind"),
    path("store/add/<slug:kind>/", store.add, name="add_product"),
    path("store/<int:product_id>/", store.product, name="product"),
    path("store/<int:product_id>/change/", store.change, name="change_product"),
    path("store/<int:product_id>/label/", store.revise, name="revise_label"),
    path("store/<int:product_id>/retire/", store.retire, name="retire_product"),
    path("store/<int:product_id>/bring-back/", store.bring_back, name="bring_back_product"),
    path("store/<int:product_id>/safety-sheet/", file.safety_sheet_new, name="safety_sheet_new"),
    path("store/<int:product_id>/stock/", stock.note_stock, name="note_stock"),
    path("store/<int:product_id>/stock/take-back/", stock.take_back, name="take_back_stock"),
    path("store/<int:product_id>/recompute/", recompute.label, name="recompute_label"),
    path("greens/<int:green_id>/recompute/", recompute.area, name="recompute_area"),
]
