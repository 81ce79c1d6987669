"""The secure address and its plain door: as applications, and on real sockets."""

import http.client
import socket
import ssl
from threading import Thread

import pytest
from django.utils import timezone

from soapbench.bootstrap import network
from soapbench.workshop.management import certificates, secure, server
from soapbench.workshop.management.door import Door, is_at_the_machine

LAN = "192.168.1.20"


def hello(environ, start_response):
    start_response("200 OK", [("Content-Type", "text/plain"), ("Set-Cookie", " id=1; Path=/; Secure; HttpOnly")])
    return [environ["wsgi.url_scheme"].encode()]


def knock(path="/", method="GET", sender=LAN, host=f"{LAN}:8001", **more):
    """Return status, headers and body of what the door answers."""
    told = {}
    environ = {
        "PATH_INFO": path, "REQUEST_METHOD": method, "REMOTE_ADDR": sender, "HTTP_HOST": host,
        "wsgi.url_scheme": "http", **more,
    }  # fmt: skip
    body = Door(hello, 8000)(environ, lambda status, headers: told.update(status=status, headers=dict(headers)))
    return told["status"][:3], told["headers"], b"".join(body)


@pytest.fixture(autouse=True)
def house(settings):
    settings.ALLOWED_HOSTS = [LAN, "kettle.local", "localhost", "127.0.0.1"]
    settings.HOUSE_ADDRESS = f"https://{LAN}:8000/"
    settings.DOOR_ADDRESS = f"http://{LAN}:8001/"


@pytest.mark.parametrize("path", ["/phone/", "/phone/soapbench-root.crt", "/static/css/base.css", "/healthz"])
def test_a_new_phone_gets_the_page_and_the_certificate(path):
    assert knock(path)[0] == "200"


@pytest.mark.parametrize(
    ("path", "query", "leads_to"),
    [
        ("/", "", f"https://{LAN}:8000/"),
        ("/rack/", "a=b%20c&d=", f"https://{LAN}:8000/rack/?a=b%20c&d="),
        ("/bars/caf\xc3\xa9/", "", f"https://{LAN}:8000/bars/caf%C3%A9/"),
        ("/a\r\nSet-Cookie: b", "", f"https://{LAN}:8000/a%0D%0ASet-Cookie%3A%20b"),
        ("//evil.example/", "", f"https://{LAN}:8000//evil.example/"),
    ],
)
def test_all_else_is_sent_to_the_secure_address(path, query, leads_to):
    status, headers, body = knock(path, QUERY_STRING=query)

    assert (status, headers["Location"], body) == ("307", leads_to, b"")


@pytest.mark.parametrize(
    ("host", "name"), [("kettle.local:8001", "kettle.local"), ("evil.example", LAN), ("", LAN), ("a b", LAN)]
)
def test_the_name_asked_for_is_kept_where_it_is_ours(host, name):
    assert knock(host=host)[1]["Location"] == f"https://{name}:8000/"


@pytest.mark.parametrize("path", ["/phone/", "/sign-in/"])
def test_nothing_is_taken_at_the_plain_door(path):
    assert knock(path, method="POST")[0] == "307"


def test_the_machine_itself_gets_the_whole_app_with_cookies_that_it_keeps():
    status, headers, _body = knock("/workshop/", method="POST", sender="127.0.0.1", host="localhost:8001")

    assert (status, headers["Set-Cookie"]) == ("200", " id=1; Path=/; HttpOnly")


@pytest.mark.parametrize(
    "environ",
    [
        {"REMOTE_ADDR": LAN, "HTTP_HOST": "localhost:8001"},
        {"REMOTE_ADDR": "127.0.0.1", "HTTP_HOST": "evil.example"},
        {"REMOTE_ADDR": "127.0.0.1", "HTTP_HOST": "localhost", "HTTP_X_FORWARDED_FOR": LAN},
        {"REMOTE_ADDR": "127.0.0.1"},
    ],
)
def test_nobody_else_passes_for_the_machine_itself(environ):
    assert not is_at_the_machine(environ)


@pytest.fixture
def papers(tmp_path):
    return certificates.ensure(tmp_path / "tls", ["localhost", "127.0.0.1"], timezone.now())


def free_port():
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


@pytest.fixture
def running(papers):
    """A server of the application above that speaks HTTPS; returns it and its port."""
    port = free_port()
    serving = server.listen("127.0.0.1", port, 2, hello, papers)
    thread = Thread(target=serving.serve)
    thread.start()
    yield serving, port
    serving.stop()
    thread.join()


def ask(port, root):
    connection = http.client.HTTPSConnection("localhost", port, timeout=20, context=trusting(root))
    connection.request("GET", "/")
    response = connection.getresponse()
    body = response.read()
    connection.close()
    return response.status, body


def trusting(root):
    return ssl.create_default_context(cafile=root)


def test_the_app_knows_that_it_is_asked_over_https(running, papers):
    assert ask(running[1], papers.root) == (200, b"https")


def test_a_phone_that_falls_silent_holds_up_nobody(running, papers):
    with socket.create_connection(("127.0.0.1", running[1])):
        assert ask(running[1], papers.root)[0] == 200


def test_a_browser_with_an_old_plain_address_is_shown_the_page_that_helps(running, papers):
    connection = http.client.HTTPConnection("127.0.0.1", running[1], timeout=20)
    connection.request("GET", "/bench/", headers={"Cookie": "sessionid=old"})
    response = connection.getresponse()
    location = response.getheader("Location")
    connection.close()

    assert (response.status, location) == (302, f"http://{LAN}:8001/phone/")
    assert ask(running[1], papers.root)[0] == 200


def test_old_protocols_are_refused(running):
    assert running[0].ssl_adapter.context.minimum_version == ssl.TLSVersion.TLSv1_2


def test_another_address_is_answered_without_a_restart(running, papers, settings, monkeypatch):
    serving, port = running
    secured = secure.Secured("0.0.0.0", port, papers, serving, serving)
    monkeypatch.setattr(network, "lan_address", lambda: "10.0.0.7")
    monkeypatch.setattr(network, "host_names", lambda: ["kettle.local"])

    secured.look()

    with socket.create_connection(("127.0.0.1", port)) as raw:
        trusting(papers.root).wrap_socket(raw, server_hostname="10.0.0.7").close()
    assert "10.0.0.7" in settings.ALLOWED_HOSTS
    assert f"https://10.0.0.7:{port}/" == settings.HOUSE_ADDRESS


def test_a_look_that_finds_nothing_new_changes_nothing(running, papers, settings):
    secured = secure.Secured("localhost", running[1], papers, *[running[0]] * 2)
    secured.look()
    before = papers.leaf.read_bytes()

    secured.look()

    assert papers.leaf.read_bytes() == before


def test_https_sets_cookies_that_no_plain_page_sees_and_that_do_not_bar_the_way_back(settings, tmp_path, monkeypatch):
    settings.DATA_DIR = tmp_path
    plain = settings.SESSION_COOKIE_NAME, settings.CSRF_COOKIE_NAME

    secure.prepare("127.0.0.1", free_port(), None)

    assert settings.SESSION_COOKIE_SECURE and settings.CSRF_COOKIE_SECURE
    assert not {settings.SESSION_COOKIE_NAME, settings.CSRF_COOKIE_NAME} & set(plain)


@pytest.mark.parametrize(
    ("own", "names"),
    [
        ("kettle", ["kettle", "kettle.local"]),
        ("Kettle.local", ["kettle.local"]),
        ("kettle.home.example", ["kettle.home.example", "kettle.local"]),
        ("Ada's machine", []),
        ("-", []),
    ],
)
def test_only_names_that_can_be_asked_for_are_used(monkeypatch, own, names):
    monkeypatch.setattr(socket, "gethostname", lambda: own)

    assert network.host_names() == names
