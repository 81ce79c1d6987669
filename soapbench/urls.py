"""One folder of addresses for each place of the workshop."""

from django.urls import include, path

# A place given by name is imported when an address first leads there, not at the start:
# /healthz answers, and a start is over, before the sums and the pages of every place are read.
urlpatterns = [
    path("", include("soapbench.workshop.urls")),
    path("shelf/", ("soapbench.shelf.urls", "shelf", "shelf")),
    path("bars/", ("soapbench.bars.urls", "bars", "bars")),
    path("rack/", ("soapbench.rack.urls", "rack", "rack")),
    path("logbook/", ("soapbench.logbook.urls", "logbook", "logbook")),
    path("", ("soapbench.bench.urls", "bench", "bench")),
]

handler400 = "soapbench.workshop.errors.bad_request"
handler403 = "soapbench.workshop.errors.refused"
handler404 = "soapbench.workshop.errors.not_found"
handler500 = "soapbench.workshop.errors.broken"
