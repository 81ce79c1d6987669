from django.urls import path

from soapbench.rack import calendar, views

app_name = "rack"
urlpatterns = [
    path("", views.home, name="home"),
    path("<uuid:pk>/", views.run, name="run"),
    path("<uuid:pk>/running.ics", calendar.running, name="running"),
    path("<uuid:pk>/waits/<str:key>.ics", calendar.one, name="wait"),
    path("calendar/<slug:token>.ics", calendar.feed, name="feed"),
]
