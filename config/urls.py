"""Every address of the site."""

from django.urls import include, path

handler400 = "venue.views.errors.bad_request"
handler403 = "venue.views.errors.permission_denied"
handler404 = "venue.views.errors.page_not_found"
handler500 = "venue.views.errors.server_error"

urlpatterns = [
    path("", include("venue.urls")),
    path("", include("shows.urls")),
    path("", include("crew.urls")),
]
