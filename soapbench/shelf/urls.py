from django.urls import path

from soapbench.shelf import views

app_name = "shelf"

urlpatterns = [
    path("", views.home, name="home"),
    path("<int:pk>/", views.material, name="material"),
    path("<int:pk>/edit/", views.material_edit, name="material_edit"),
    path("<int:pk>/lots/new/", views.lot_add, name="lot_add"),
    path("lots/<int:pk>/", views.lot_edit, name="lot_edit"),
    path("new/<slug:kind>/", views.material_add, name="material_add"),
]
