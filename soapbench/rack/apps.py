from django.apps import AppConfig


class RackConfig(AppConfig):
    name = "soapbench.rack"
    label = "rack"
