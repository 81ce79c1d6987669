from django.urls import path

from soapbench.bars import views

app_name = "bars"
urlpatterns = [
    path("", views.home, name="home"),
    path("new/", views.new, name="new"),
    path("check/", views.check_typed, name="check"),
    path("<slug:slug>/", views.bar, name="bar"),
    path("<slug:slug>/edit/", views.edit, name="edit"),
    path("<slug:slug>/<int:number>/", views.revision, name="revision"),
]
