from django.apps import AppConfig


class WorkshopConfig(AppConfig):
    name = "soapbench.workshop"
    label = "workshop"
