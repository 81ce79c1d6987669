from django.urls import include, path

from soapbench.workshop import views

place = (
    [
        path("workshop/", views.home, name="home"),
        path("about/numbers/", views.numbers, name="numbers"),
        path("sign-in/", views.sign_in, name="sign_in"),
        path("sign-out/", views.sign_out, name="sign_out"),
        path("enter/<str:token>/", views.enter, name="enter"),
    ],
    "workshop",
)

urlpatterns = [
    path("healthz", views.healthz, name="healthz"),
    path("", include(place)),
]
