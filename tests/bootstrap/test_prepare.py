"""What serve makes ready before it serves."""

import os

import pytest
from django.db import connection

from soapbench.shelf.models import Material
from soapbench.workshop.management import banner, migrations, static_files
from soapbench.workshop.management.commands import serve
from soapbench.workshop.models import Person, Workshop


@pytest.mark.django_db
def test_a_database_with_every_migration_has_none_pending():
    assert not migrations.pending()


@pytest.mark.django_db
def test_a_migration_that_the_database_never_had_is_pending():
    with connection.cursor() as cursor:
        cursor.execute("DELETE FROM django_migrations WHERE app = 'workshop' AND name = '0001_initial'")

    assert migrations.pending()


@pytest.mark.django_db
def test_a_migration_of_a_newer_version_does_no_harm():
    with connection.cursor() as cursor:
        cursor.execute(
            "INSERT INTO django_migrations (app, name, applied) VALUES ('workshop', '9999_later', CURRENT_TIMESTAMP)"
        )

    assert not migrations.pending()


@pytest.fixture
def page(settings, tmp_path):
    """A static file in a project of its own."""
    settings.STATICFILES_DIRS = [tmp_path / "static"]
    settings.STATIC_ROOT = tmp_path / "collected"
    settings.STORAGES = {**settings.STORAGES, "staticfiles": {"BACKEND": "soapbench.static.HashedStaticFiles"}}
    (tmp_path / "static").mkdir()
    file = tmp_path / "static" / "page.css"
    file.write_text("a { color: black; }")
    return file


def collected(settings):
    return sorted(path.name for path in settings.STATIC_ROOT.glob("page.*.css"))


def test_static_files_are_collected_once(page, settings):
    assert static_files.collect_if_changed()
    assert len(collected(settings)) == 1
    assert not static_files.collect_if_changed()


def test_a_changed_static_file_is_collected_and_its_old_version_stays(page, settings):
    static_files.collect_if_changed()
    page.write_text("a { color: navy; }")
    os.utime(page, (1, 1))

    assert static_files.collect_if_changed()
    assert len(collected(settings)) == 2


@pytest.mark.django_db
def test_the_link_for_the_phone_is_the_owners():
    workshop = Workshop.objects.create(name="Test")
    Person.objects.create(username="helper", workshop=workshop)
    owner = Person.objects.create(username="owner", workshop=workshop, is_owner=True)

    address = serve.phone_address("0.0.0.0", 8000, "192.168.1.20")

    assert address.startswith("http://192.168.1.20:8000/enter/")
    assert serve.entry.person_of(address.split("/")[-2]) == owner


@pytest.mark.django_db
def test_without_an_owner_the_phone_gets_the_plain_address():
    assert serve.phone_address("192.168.1.20", 8000, None) == "http://192.168.1.20:8000/"


def test_no_phone_gets_to_a_server_for_this_machine_only():
    assert serve.phone_address("127.0.0.1", 8000, None) is None


def test_the_app_answers_under_the_address_that_it_prints(settings):
    serve.answer_to("0.0.0.0", "192.168.1.20")

    assert {"192.168.1.20", "localhost", "127.0.0.1"} <= set(settings.ALLOWED_HOSTS)
    assert "*" not in settings.ALLOWED_HOSTS


@pytest.mark.parametrize(("told", "trusted"), [(None, True), ("0", False)])
def test_this_machine_is_trusted_unless_told_otherwise(settings, monkeypatch, told, trusted):
    settings.TRUST_THIS_MACHINE = False
    monkeypatch.delenv("SOAPBENCH_TRUST_THIS_MACHINE", raising=False)
    if told:
        monkeypatch.setenv("SOAPBENCH_TRUST_THIS_MACHINE", told)

    serve.answer_to("127.0.0.1", None)

    assert settings.TRUST_THIS_MACHINE is trusted


def words(parts):
    return "\n".join(line for part in parts for line in part.lines)


def test_a_machine_on_no_network_says_so_instead_of_a_phone_address():
    told = words(banner.plain(8000, None, lan=True))

    assert "http://localhost:8000/" in told
    assert "on no network" in told


def test_a_server_for_this_machine_only_says_nothing_of_phones():
    assert "phone" not in words(banner.plain(8000, None, lan=False))


def test_a_secure_start_tells_first_how_a_phone_gets_to_know_the_machine():
    first, then = banner.secure(8001, "https://h:8000/enter/x/", "http://h:8001/phone/", "AB " * 31 + "CD", lan=True)

    assert (first.code, then.code) == ("http://h:8001/phone/", "https://h:8000/enter/x/")
    assert "http://localhost:8001/" in words([first])
    assert [line.strip() for line in first.lines[-4:]] == [*["AB AB AB AB AB AB AB AB"] * 3, "AB " * 7 + "CD"]


def test_a_secure_start_on_no_network_shows_no_code():
    parts = banner.secure(8001, None, "http://localhost:8001/phone/", "AB", lan=True)

    assert [part.code for part in parts] == [""]
    assert "on no network" in words(parts)


def test_a_qr_code_is_square_and_keeps_its_colours_on_a_light_terminal():
    plain = banner.qr("http://192.168.1.20:8000/", colours=False).splitlines()
    coloured = banner.qr("http://192.168.1.20:8000/", colours=True).splitlines()

    assert {len(line) for line in plain} == {len(plain[0])}
    assert len(plain) == -(-len(plain[0]) // 2)  # two modules in the height of a line
    assert all(line == f"\x1b[97;40m{bare}\x1b[0m" for line, bare in zip(coloured, plain, strict=True))


@pytest.mark.django_db
def test_without_the_demo_the_shelf_is_filled_and_nobody_is_known(monkeypatch):
    monkeypatch.setattr(static_files, "collect_if_changed", lambda: None)

    serve.Command().prepare(with_demo=False)

    assert Material.objects.filter(key="olive").exists()
    assert not Person.objects.exists() and not Workshop.objects.exists()
