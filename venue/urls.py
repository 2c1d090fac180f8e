"""Addresses of the house's pages, and of signing in and out."""

from django.urls import path

from venue.views.sessions import sign_in, sign_out
from venue.views.theme import choose_theme

app_name = "venue"
urlpatterns = [
    path("sign-in/", sign_in, name="sign_in"),
    path("sign-out/", sign_out, name="sign_out"),
    path("theme/", choose_theme, name="choose_theme"),
]
