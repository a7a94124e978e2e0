"""What to order."""

from django.urls import path

from growin.views import orders

urlpatterns = [path("store/orders/", orders.orders, name="orders")]
