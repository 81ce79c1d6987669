from django.urls import path

from soapbench.bench import attachment_views, changing_views, following_views, kept, views

app_name = "bench"
urlpatterns = [
    path("", views.home, name="home"),
    path("bench/kept/", kept.kept, name="kept"),
    path("bench/new/<slug:slug>/", views.choose, name="choose"),
    path("bench/<uuid:run_id>/", views.run, name="run"),
    path("bench/<uuid:run_id>/events/", views.events, name="events"),
    path("bench/<uuid:run_id>/since/<int:position>/", following_views.since, name="since"),
    path("bench/<uuid:run_id>/what-if/", changing_views.what_if_view, name="what-if"),
    path("bench/<uuid:run_id>/attachments/", attachment_views.attach_view, name="attach"),
    path("bench/<uuid:run_id>/attachments/<uuid:event_id>/", attachment_views.attachment, name="attachment"),
    path("bench/<uuid:run_id>/missing/", views.missing, name="missing"),
]
