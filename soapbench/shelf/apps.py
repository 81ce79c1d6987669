from django.apps import AppConfig


class ShelfConfig(AppConfig):
    name = "soapbench.shelf"
    label = "shelf"
