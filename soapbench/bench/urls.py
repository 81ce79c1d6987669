from django.urls import path

from soapbench.bench import changing_views, kept, views

app_name = "bench"
urlpatterns = [
    path("", views.home, name="home"),
    path("bench/kept/", kept.kept, name="kept"),
    path("bench/new/<slug:slug>/", views.choose, name="choose"),
    path("bench/<uuid:run_id>/", views.run, name="run"),
    path("bench/<uuid:run_id>/events/", views.events, name="events"),
    path("bench/<uuid:run_id>/what-if/", changing_views.what_if_view, name="what-if"),
]
