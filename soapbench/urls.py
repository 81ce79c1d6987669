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

handler400 = "soapbench.workshop.errors.bad_request"
handler403 = "soapbench.workshop.errors.refused"
handler404 = "soapbench.workshop.errors.not_found"
handler500 = "soapbench.workshop.errors.broken"
