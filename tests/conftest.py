"""What the whole suite shares."""

from hypothesis import settings

from tests.racing import shared_database, template

__all__ = ["shared_database", "template"]

# Two workers on two cores make single examples slow now and then; that says nothing about the code.
settings.register_profile("suite", deadline=None)
settings.load_profile("suite")
