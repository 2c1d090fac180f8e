"""Rules that the database itself keeps and that Django's constraints can't express on both databases.

A model lists its guards in `guards`; a migration adds each with `AddGuard`. On SQLite they are triggers,
which Django drops whenever it makes a table anew, so they are put back after every migration.
"""

from venue.guards.append_only import AppendOnly
from venue.guards.base import AddGuard, Guard, put_back
from venue.guards.no_overlap import NoOverlap
from venue.guards.unchanging import Unchanging

__all__ = ["AddGuard", "AppendOnly", "Guard", "NoOverlap", "Unchanging", "put_back"]
