"""One folder of addresses for each place of the workshop."""

from django.urls import include, path

urlpatterns = [
    path("", include("soapbench.workshop.urls")),
    path("shelf/", include("soapbench.shelf.urls")),
    path("bars/", include("soapbench.bars.urls")),
    path("", include("soapbench.bench.urls")),
    path("rack/", include("soapbench.rack.urls")),
    path("logbook/", include("soapbench.logbook.urls")),
]
