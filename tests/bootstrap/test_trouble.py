import errno

import pytest

from soapbench.bootstrap import pip_words, start
from soapbench.bootstrap.trouble import Trouble, of_the_system


def refuse_with(error):
    """Return a stand-in for Django that fails."""

    def django(argv):
        raise error

    return django


@pytest.fixture
def in_environment(monkeypatch):
    """As if everything were installed and this were its Python."""
    monkeypatch.setattr(start.environment, "ensure", lambda **kwargs: None)
    monkeypatch.setattr(start, "inside", lambda environment: True)


@pytest.mark.parametrize(
    ("error", "words"),
    [
        (Trouble("Port 80 is kept for the system."), "Port 80 is kept"),
        (PermissionError(errno.EACCES, "Permission denied", "/data/secret"), "may not write to /data/secret"),
        (OSError(errno.EROFS, "Read-only file system", "/media/stick"), "/media/stick is on a read-only disk"),
        (NotADirectoryError(errno.ENOTDIR, "Not a directory", "/data/x"), "/data/x cannot be made"),
        (OSError(errno.ENOSPC, "No space left on device"), "The disk is full"),
    ],
)
def test_trouble_is_one_sentence_and_exit_code_1(in_environment, capsys, error, words):
    code = start.run(["manage.py", "serve"], refuse_with(error))

    told = capsys.readouterr().err
    assert code == 1
    assert words in told
    assert told.count("\n") == 1


def test_an_error_that_is_ours_keeps_its_traceback(in_environment):
    with pytest.raises(FileNotFoundError):
        start.run(["manage.py", "serve"], refuse_with(FileNotFoundError(errno.ENOENT, "No such file", "x")))


def test_ctrl_c_says_that_it_stopped(in_environment, capsys):
    assert start.run(["manage.py", "serve"], refuse_with(KeyboardInterrupt())) == 130
    assert capsys.readouterr().err == "Stopped.\n"


def test_an_error_about_something_else_is_no_trouble_of_the_system():
    assert of_the_system(OSError(errno.EPIPE, "Broken pipe")) is None


@pytest.mark.parametrize(
    ("printed", "told"),
    [
        ("NewConnectionError(... [Errno -3] Temporary failure in name resolution)", "connect this machine"),
        (
            "WARNING: Retrying after connection broken by 'ConnectTimeoutError'\n"
            "ERROR: No matching distribution found for django==5.2.19",
            "connect this machine",
        ),
        ("SSLError(SSLCertVerificationError(1, '[SSL: CERTIFICATE_VERIFY_FAILED]", "set the machine's clock"),
        ("ERROR: THESE PACKAGES DO NOT MATCH THE HASHES FROM THE REQUIREMENTS FILE.", "is not the one pinned"),
        ("ERROR: No matching distribution found for numpy==2.4.6", "not ready-built for this machine"),
        ("OSError: [Errno 28] No space left on device", "The disk is full"),
        ("something new\nERROR: a new kind of trouble\n", "a new kind of trouble"),
        ("", "it gave no reason"),
    ],
)
def test_what_pip_printed_becomes_a_sentence(tmp_path, printed, told):
    sentence = str(pip_words.trouble(printed, tmp_path / "install.log"))

    assert told in sentence
    assert "\n" not in sentence
