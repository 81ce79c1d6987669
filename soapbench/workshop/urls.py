from django.urls import include, path

from soapbench.workshop import calendar_link, home, numbers, offline, phone, views

place = (
    [
        path("workshop/", home.home, name="home"),
        path("workshop/details/", home.details, name="details"),
        path("workshop/calendar/", calendar_link.calendar, name="calendar"),
        path("workshop/people/new/", home.person_add, name="person_add"),
        path("workshop/people/<int:pk>/", home.person_edit, name="person_edit"),
        path("workshop/<slug:word>/new/", home.equipment_add, name="equipment_add"),
        path("workshop/<slug:word>/<int:pk>/", home.equipment_edit, name="equipment_edit"),
        path("workshop/<slug:word>/<int:pk>/here/", home.equipment_here, name="equipment_here"),
        path("about/numbers/", numbers.numbers, name="numbers"),
        path("phone/", phone.phone, name="phone"),
        path("phone/soapbench-root.crt", phone.certificate, name="certificate"),
        path("start/", home.start, name="start"),
        path("sign-in/", views.sign_in, name="sign_in"),
        path("sign-out/", views.sign_out, name="sign_out"),
        path("enter/<str:token>/", views.enter, name="enter"),
    ],
    "workshop",
)

urlpatterns = [
    path("healthz", views.healthz, name="healthz"),
    path("sw.js", offline.worker, name="worker"),
    path("app.webmanifest", offline.manifest, name="manifest"),
    path("offline/", offline.fallback, name="offline"),
    path("", include(place)),
]
