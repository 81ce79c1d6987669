from django.urls import URLPattern

app_name = "rack"
urlpatterns: list[URLPattern] = []
