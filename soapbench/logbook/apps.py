from django.apps import AppConfig


class LogbookConfig(AppConfig):
    name = "soapbench.logbook"
    label = "logbook"
