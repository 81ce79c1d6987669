"""The page with which a phone comes to the secure address."""

import ssl

import pytest

PEM = ssl.DER_cert_to_PEM_cert(b"the bytes of a certificate")


@pytest.fixture
def certificate(settings, tmp_path):
    settings.HOUSE_ADDRESS = "https://192.168.1.20:8000/"
    settings.ROOT_CERTIFICATE = str(tmp_path / "root.crt")
    settings.ROOT_FINGERPRINT = "AB CD EF"
    (tmp_path / "root.crt").write_text(PEM)


def test_at_a_plain_start_the_page_says_how_to_get_a_secure_address(client, db):
    page = client.get("/phone/").content.decode()

    assert "python3 manage.py serve --secure" in page
    assert "/phone/soapbench-root.crt" not in page


def test_without_a_certificate_there_is_none_to_take(client, db):
    assert client.get("/phone/soapbench-root.crt").status_code == 404


@pytest.mark.parametrize("words", ["Android", "iPhone and iPad", "AB CD EF", "What it means", "How to remove it again"])
def test_a_phone_needs_no_sign_in_to_read_what_to_do(client, certificate, db, words):
    assert words in client.get("/phone/").content.decode()


def test_the_certificate_comes_as_phones_take_it(client, certificate, db):
    response = client.get("/phone/soapbench-root.crt")

    assert response.content == b"the bytes of a certificate"
    assert response.headers["Content-Type"] == "application/x-x509-ca-cert"


def test_at_the_secure_address_nothing_is_left_to_do_but_undoing(client, certificate, db):
    page = client.get("/phone/", secure=True).content.decode()

    assert "This address is secure" in page
    assert "Download the certificate" not in page
    assert "How to remove it again" in page


def test_every_page_tells_the_scripts_which_cookie_holds_the_token(as_owner, settings):
    settings.CSRF_COOKIE_NAME = "secure_csrftoken"

    assert 'data-csrf-cookie="secure_csrftoken"' in as_owner.get("/workshop/").content.decode()
