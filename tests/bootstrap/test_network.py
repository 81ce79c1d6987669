import socket

import pytest

from soapbench.bootstrap import network
from soapbench.bootstrap.trouble import Trouble


@pytest.fixture
def taken():
    """A port that somebody listens on."""
    with socket.socket() as listener:
        listener.bind(("127.0.0.1", 0))
        listener.listen()
        yield listener.getsockname()[1]


def test_a_port_in_use_is_told_with_another_to_take(taken):
    with pytest.raises(Trouble, match=f"Port {taken} is in use.*--port {taken + 1}"):
        network.check_port("127.0.0.1", taken)


def test_a_port_in_use_on_one_address_is_in_use_for_all(taken):
    with pytest.raises(Trouble, match="in use"):
        network.check_port("0.0.0.0", taken)


def test_a_free_port_passes(taken):
    with socket.socket() as once:
        once.bind(("127.0.0.1", 0))
        free = once.getsockname()[1]

    network.check_port("127.0.0.1", free)


@pytest.mark.parametrize("port", [-1, 0, 65536, 800000])
def test_what_is_no_port_is_refused(port):
    with pytest.raises(Trouble, match="is no port"):
        network.check_port("127.0.0.1", port)


@pytest.mark.parametrize("host", ["192.0.2.77", "no.such.host.invalid"])
def test_an_address_of_another_machine_is_refused(host, monkeypatch):
    with pytest.raises(Trouble, match="is not an address of this machine"):
        network.check_port(host, 18_765)


def test_a_machine_on_no_network_has_no_address_for_phones(monkeypatch):
    class NoRoute(socket.socket):
        def connect(self, address):
            raise OSError("Network is unreachable")

    monkeypatch.setattr(socket, "socket", NoRoute)

    assert network.lan_address() is None


@pytest.mark.parametrize(("own", "told"), [("192.168.1.20", "192.168.1.20"), ("127.0.0.1", None)])
def test_the_address_for_phones_is_the_one_that_leads_out(monkeypatch, own, told):
    class Routed(socket.socket):
        def connect(self, address):
            """Nothing is sent."""

        def getsockname(self):
            return (own, 40_000)

    monkeypatch.setattr(socket, "socket", Routed)

    assert network.lan_address() == told
