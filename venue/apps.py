from django.apps import AppConfig
from django.db.models.signals import post_migrate


class VenueConfig(AppConfig):
    name = "venue"

    def ready(self) -> None:
        from venue.guards import put_back

        post_migrate.connect(put_back, dispatch_uid="venue.guards.put_back")
