from django.apps import AppConfig


class CrewConfig(AppConfig):
    name = "crew"

    def ready(self) -> None:
        from crew.wording import EVENT_SENTENCES
        from venue import wording

        wording.EVENT_SENTENCES.update(EVENT_SENTENCES)
