from django.urls import path

from soapbench.logbook import views

app_name = "logbook"
urlpatterns = [
    path("", views.home, name="home"),
    path("<uuid:pk>/", views.record, name="record"),
    path("<uuid:pk>.pdf", views.pdf, name="pdf"),
]
