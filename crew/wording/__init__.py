"""The sentences of rosters, calls and sheets, made from what core returns."""

from crew.wording.history import EVENT_SENTENCES

__all__ = ["EVENT_SENTENCES"]
