"""A view does nothing for a method that it is not made for."""

import pytest
from django.contrib.auth.models import AnonymousUser
from django.test import RequestFactory

from tests.test_urls import Address, all_addresses


@pytest.mark.parametrize("method", ["delete", "patch"])
@pytest.mark.parametrize("address", all_addresses(), ids=lambda address: address.name)
def test_every_view_refuses_a_method_that_it_does_not_know(address: Address, method: str) -> None:
    request = getattr(RequestFactory(), method)("/")
    request.user = AnonymousUser()
    request._dont_enforce_csrf_checks = True  # as Django's own test client has it: that refusal would come first
    assert address.view(request, **dict.fromkeys(address.converters)).status_code == 405
