from django.apps import AppConfig


class ShowsConfig(AppConfig):
    name = "shows"

    def ready(self) -> None:
        from shows.wording_rows import EVENT_SENTENCES
        from venue import wording

        wording.EVENT_SENTENCES.update(EVENT_SENTENCES)
