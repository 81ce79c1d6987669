from django.urls import path

from soapbench.rack import views

app_name = "rack"
urlpatterns = [
    path("", views.home, name="home"),
    path("<uuid:pk>/", views.run, name="run"),
]
