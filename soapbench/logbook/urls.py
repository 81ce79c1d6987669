from django.urls import URLPattern

app_name = "logbook"
urlpatterns: list[URLPattern] = []
