from django.apps import AppConfig


class BarsConfig(AppConfig):
    name = "soapbench.bars"
    label = "bars"
