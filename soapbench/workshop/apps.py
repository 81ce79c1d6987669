from django.apps import AppConfig


class WorkshopConfig(AppConfig):
    name = "soapbench.workshop"
    label = "workshop"

    def ready(self) -> None:
        """Lend the catalogue of messages to the science, which knows nothing of Django."""
        from django.utils import translation
        from django.utils.formats import get_format

        from soapbench.science import words

        words.speak_with(
            translation.gettext,
            translation.ngettext,
            translation.pgettext,
            lambda: str(get_format("DECIMAL_SEPARATOR")),
        )
