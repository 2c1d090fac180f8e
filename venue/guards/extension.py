"""What PostgreSQL needs before it can keep spans of one thing apart."""

from typing import Any

from django.contrib.postgres.operations import BtreeGistExtension
from django.db.backends.base.schema import BaseDatabaseSchemaEditor


class AddBtreeGist(BtreeGistExtension):
    """Add btree_gist on PostgreSQL; it stays when the migration is taken back, others may use it."""

    def database_backwards(
        self, app_label: str, schema_editor: BaseDatabaseSchemaEditor, from_state: Any, to_state: Any
    ) -> None:
        """Nothing to take away."""
