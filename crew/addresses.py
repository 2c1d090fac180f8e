"""Where the pages of the house and of its shows are."""

from django.urls import reverse

from shows.models import Engagement
from venue.models import House


def house_address(house: House) -> str:
    return reverse("venue:house_detail", args=[house.slug])


def booking_address(house: House) -> str:
    return reverse("shows:engagement_new", args=[house.slug])


def today_address(house: House) -> str:
    return reverse("shows:today", args=[house.slug])


def paperwork_address(engagement: Engagement) -> str:
    return reverse("shows:paperwork_receive", args=[engagement.ref])


def compare_address(engagement: Engagement) -> str:
    return reverse("shows:compare", args=[engagement.ref])


def assign_address(engagement: Engagement) -> str:
    return reverse("shows:assign", args=[engagement.ref])


def fit_address(engagement: Engagement) -> str:
    return reverse("shows:fit", args=[engagement.ref])


def arrival_address(engagement: Engagement) -> str:
    return reverse("shows:arrival", args=[engagement.ref])
