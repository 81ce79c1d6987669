from django.urls import path

from soapbench.bench import kept, views

app_name = "bench"
urlpatterns = [
    path("", views.home, name="home"),
    path("bench/kept/", kept.kept, name="kept"),
    path("bench/new/<slug:slug>/", views.choose, name="choose"),
    path("bench/<uuid:run_id>/", views.run, name="run"),
    path("bench/<uuid:run_id>/events/", views.events, name="events"),
]
