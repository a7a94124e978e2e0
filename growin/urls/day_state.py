"""To be filled."""

urlpatterns = []
