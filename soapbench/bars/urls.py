from django.urls import URLPattern

app_name = "bars"
urlpatterns: list[URLPattern] = []
