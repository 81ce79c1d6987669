from django.apps import AppConfig


class BenchConfig(AppConfig):
    name = "soapbench.bench"
    label = "bench"
