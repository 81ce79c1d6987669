"""Serve as a process of its own, with a data folder of its own, on this machine only."""

import os
import re
import signal
import socket
import ssl
import subprocess
import sys
import time
import urllib.request
from urllib.error import HTTPError

import pytest

from soapbench.bootstrap.places import ROOT

pytestmark = pytest.mark.slow

SERVE = "import sys; import manage; from soapbench.bootstrap import environment, start; "
SERVE += "environment.ensure = lambda **kwargs: None; start.inside = lambda folder: True; "
SERVE += "sys.exit(start.run(['manage.py', 'serve', *sys.argv[1:]], manage.run_django))"


@pytest.fixture
def port():
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


@pytest.fixture
def serve(tmp_path):
    """Start serve with these options; whatever still runs at the end is stopped."""
    started = []

    def start(*options, data=tmp_path):
        environment = {**os.environ, "SOAPBENCH_DATA": str(data), "DJANGO_SETTINGS_MODULE": "soapbench.settings"}
        environment.pop("SOAPBENCH_TRUST_THIS_MACHINE", None)
        command = [sys.executable, "-c", SERVE, *map(str, options)]
        pipes = {"stdout": subprocess.PIPE, "stderr": subprocess.PIPE, "text": True}
        started.append(subprocess.Popen(command, cwd=ROOT, env=environment, **pipes))
        return started[-1]

    yield start
    for process in started:
        process.kill()
        process.communicate()


def answer(address, process):
    """Return the status and the final address, once there is an answer."""
    for _ in range(600):
        try:
            with urllib.request.urlopen(address, timeout=20) as response:
                return response.status, response.url
        except HTTPError as refused:
            return refused.code, refused.url
        except OSError:
            assert process.poll() is None, process.communicate()
            time.sleep(0.05)
    pytest.fail("no answer within half a minute")


def test_an_empty_folder_becomes_a_workshop_that_answers_and_stops_politely(serve, port):
    process = serve("--port", port, "--host", "127.0.0.1")

    assert answer(f"http://127.0.0.1:{port}/healthz", process)[0] == 200
    process.send_signal(signal.SIGTERM)
    told, complaints = process.communicate(timeout=20)

    assert process.returncode == 0
    assert "Loading the reference data and the demo workshop." in told
    assert f"http://localhost:{port}/" in told
    assert "On a phone" not in told
    assert complaints == ""


def test_the_link_for_the_phone_signs_in(serve, port):
    process = serve("--port", port, "--host", "0.0.0.0", "--no-qr")
    answer(f"http://127.0.0.1:{port}/healthz", process)
    time.sleep(2)  # the addresses are told while the first requests are answered already
    process.send_signal(signal.SIGINT)
    told, _ = process.communicate(timeout=20)

    links = re.findall(rf"http://[\d.]+:{port}(/enter/\S+)", told)
    if not links:  # a machine on no network has no phone to let in
        assert "this machine is on no network" in told
        return
    process = serve("--port", port, "--host", "127.0.0.1")
    status, address = answer(f"http://127.0.0.1:{port}{links[0]}", process)
    assert status == 200
    assert "sign-in" not in address


def test_a_second_start_prepares_nothing(serve, port):
    first = serve("--port", port, "--host", "127.0.0.1")
    answer(f"http://127.0.0.1:{port}/healthz", first)
    first.terminate()
    first.communicate(timeout=20)

    second = serve("--port", port, "--host", "127.0.0.1")
    answer(f"http://127.0.0.1:{port}/healthz", second)
    second.terminate()
    told, _ = second.communicate(timeout=20)

    assert "Bringing the database up to date" not in told
    assert "Loading" not in told


def test_a_port_in_use_is_one_sentence_and_exit_code_1(serve):
    with socket.socket() as listener:
        listener.bind(("127.0.0.1", 0))
        listener.listen()
        process = serve("--port", listener.getsockname()[1], "--host", "127.0.0.1")
        _, complaints = process.communicate(timeout=20)

    assert process.returncode == 1
    assert "is in use" in complaints
    assert complaints.count("\n") == 1


def test_a_database_that_does_not_open_is_one_sentence_and_exit_code_1(serve, port, tmp_path):
    (tmp_path / "soapbench.sqlite3").mkdir()
    process = serve("--port", port, "--host", "127.0.0.1")
    _, complaints = process.communicate(timeout=20)

    assert process.returncode == 1
    assert "soapbench.sqlite3 could not be opened" in complaints
    assert complaints.count("\n") == 1


def test_a_data_folder_that_cannot_be_is_one_sentence_and_exit_code_1(serve, port, tmp_path):
    in_the_way = tmp_path / "file"
    in_the_way.touch()
    process = serve("--port", port, data=in_the_way / "data")
    _, complaints = process.communicate(timeout=20)

    assert process.returncode == 1
    assert str(in_the_way) in complaints
    assert complaints.count("\n") == 1


def test_a_secure_start_speaks_https_and_lets_the_machine_itself_in_by_the_plain_door(serve, port, tmp_path):
    process = serve("--port", port, "--host", "127.0.0.1", "--secure")
    status, address = answer(f"http://127.0.0.1:{port + 1}/workshop/", process)
    assert (status, address) == (200, f"http://127.0.0.1:{port + 1}/workshop/")

    trusting = ssl.create_default_context(cafile=tmp_path / "tls" / "root.crt")
    with urllib.request.urlopen(f"https://localhost:{port}/workshop/", timeout=20, context=trusting) as response:
        cookies = response.headers.get_all("Set-Cookie")

    assert any(cookie.strip().startswith("secure_csrftoken=") and "Secure" in cookie for cookie in cookies)
    process.send_signal(signal.SIGTERM)
    told, complaints = process.communicate(timeout=20)
    assert (process.returncode, complaints) == (0, "")
    assert f"At this machine:  http://localhost:{port + 1}/" in told
