"""Addresses of the pages that draw on houses, shows and people together."""

from django.urls import path

from crew.views.home import home

app_name = "crew"
urlpatterns = [path("", home, name="home")]
