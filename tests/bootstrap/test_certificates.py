"""The certificates of the secure address, checked with Python's own ssl, which made none of them."""

import os
import socket
import ssl
import stat
from datetime import timedelta
from threading import Thread

import pytest
from cryptography import x509
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.serialization import Encoding, load_pem_private_key
from django.utils import timezone

from soapbench.bootstrap.trouble import Trouble
from soapbench.workshop.management import certificates

NAMES = ["kettle", "kettle.local", "192.168.1.20", "localhost", "127.0.0.1", "::1"]
NOW = timezone.now()  # ssl looks at the real clock
DAY = timedelta(days=1)


@pytest.fixture
def papers(tmp_path):
    return certificates.ensure(tmp_path / "tls", NAMES, NOW)


def shake(leaf, key, root, name):
    """Return after a handshake in which the client trusts this root alone; raises what the client says."""
    server = ssl.create_default_context(ssl.Purpose.CLIENT_AUTH)
    server.load_cert_chain(leaf, key)
    client = ssl.create_default_context(cafile=root)
    client.verify_flags |= ssl.VERIFY_X509_STRICT  # what Python checks from 3.13 on
    here, there = socket.socketpair()

    def answer():
        try:
            server.wrap_socket(there, server_side=True).close()
        except OSError:
            there.close()

    thread = Thread(target=answer)
    thread.start()
    try:
        client.wrap_socket(here, server_hostname=name).close()
    finally:
        here.close()
        thread.join()


@pytest.mark.parametrize("name", NAMES)
def test_a_phone_that_knows_the_root_trusts_every_name_of_the_machine(papers, name):
    shake(papers.leaf, papers.leaf_key, papers.root, name)


@pytest.mark.parametrize("name", ["192.168.1.21", "other.local", "soap.example"])
def test_the_certificate_is_for_no_other_name(papers, name):
    with pytest.raises(ssl.SSLCertVerificationError, match="mismatch|not match"):
        shake(papers.leaf, papers.leaf_key, papers.root, name)


def test_a_phone_that_does_not_know_the_root_trusts_nothing(papers, tmp_path):
    other = certificates.ensure(tmp_path / "other", NAMES, NOW)

    with pytest.raises(ssl.SSLCertVerificationError):
        shake(papers.leaf, papers.leaf_key, other.root, "localhost")


@pytest.mark.parametrize("name", ["bank.example", "8.8.8.8", "192.0.2.1"])
def test_the_root_can_vouch_for_nothing_on_the_internet(papers, tmp_path, name):
    stolen, leaf = load_pem_private_key(papers.root_key.read_bytes(), None), tmp_path / "forged.crt"
    root = x509.load_pem_x509_certificate(papers.root.read_bytes())
    own = x509.load_pem_x509_certificate(papers.leaf.read_bytes())
    forged = x509.CertificateBuilder(root.subject, own.subject, own.public_key(), 7, NOW - DAY, NOW + DAY)
    for extension in own.extensions:
        is_name = isinstance(extension.value, x509.SubjectAlternativeName)
        value = x509.SubjectAlternativeName([certificates._general(name)]) if is_name else extension.value
        forged = forged.add_extension(value, extension.critical)
    leaf.write_bytes(forged.sign(stolen, hashes.SHA256()).public_bytes(Encoding.PEM))

    with pytest.raises(ssl.SSLCertVerificationError, match="permitted subtree violation"):
        shake(leaf, papers.leaf_key, papers.root, name)


def test_the_leaf_names_exactly_what_it_is_for(papers):
    leaf = x509.load_pem_x509_certificate(papers.leaf.read_bytes())
    named = leaf.extensions.get_extension_for_class(x509.SubjectAlternativeName).value

    assert [str(name.value) for name in named] == NAMES


@pytest.mark.skipif(os.name == "nt", reason="Windows has no such modes")
def test_keys_are_for_their_owner_alone(papers):
    modes = {path.name: stat.S_IMODE(path.stat().st_mode) for path in (papers.root_key, papers.leaf_key, papers.folder)}

    assert modes == {"root.key": 0o600, "machine.key": 0o600, "tls": 0o700}
    assert sorted(path.name for path in papers.folder.iterdir()) == [
        "machine.crt", "machine.key", "root.crt", "root.key",
    ]  # fmt: skip


def contents(papers):
    return {path.name: path.read_bytes() for path in papers.folder.iterdir()}


def again(papers, names=NAMES, days=0):
    before = contents(papers)
    found = certificates.ensure(papers.folder, names, NOW + days * DAY)
    after = contents(papers)
    return found, {name for name in after if after[name] != before[name]}


def test_a_second_start_makes_nothing(papers):
    found, changed = again(papers, days=300)

    assert (found.is_new_root, found.is_new_leaf, changed) == (False, False, set())


LEAF = {"machine.crt", "machine.key"}
ROOT = {"root.crt", "root.key"}


@pytest.mark.parametrize(
    ("names", "days", "expected"),
    [
        ([*NAMES, "192.168.1.77"], 0, LEAF),  # the router gave another address
        (["ladle.local", *NAMES], 0, LEAF),
        (NAMES[:3], 0, set()),  # fewer is covered already
        (NAMES, 370, LEAF),  # a month before it ends
        (["ladle", *NAMES], 0, LEAF | ROOT),  # a name that the root may not vouch for
        (NAMES, 3640, LEAF | ROOT),
    ],
)
def test_what_is_too_old_or_too_narrow_is_made_anew_and_nothing_else(papers, names, days, expected):
    _found, changed = again(papers, names, days)

    assert changed == expected


def test_a_renewed_certificate_is_trusted_by_phones_that_knew_the_root_before(papers, tmp_path):
    known = tmp_path / "phone.crt"
    known.write_bytes(papers.root.read_bytes())

    renewed, _changed = again(papers, [*NAMES, "10.0.0.7"])

    shake(renewed.leaf, renewed.leaf_key, known, "10.0.0.7")


@pytest.mark.parametrize("lost", ["root.key", "root.crt", "machine.key", "machine.crt"])
def test_a_start_that_was_broken_off_is_put_right(papers, lost):
    (papers.folder / lost).unlink()
    certificates.ensure(papers.folder, NAMES, NOW)

    shake(papers.leaf, papers.leaf_key, papers.root, "localhost")


def test_a_key_of_another_making_is_not_used(papers, tmp_path):
    other = certificates.ensure(tmp_path / "other", NAMES, NOW)
    papers.root_key.write_bytes(other.root_key.read_bytes())
    certificates.ensure(papers.folder, NAMES, NOW)

    shake(papers.leaf, papers.leaf_key, papers.root, "localhost")


@pytest.mark.parametrize("name", ["root.crt", "root.key", "machine.crt"])
def test_a_file_that_cannot_be_read_is_told_in_a_sentence(papers, name):
    (papers.folder / name).write_text("coffee")

    with pytest.raises(Trouble, match=f"{name} cannot be read: remove the folder"):
        certificates.ensure(papers.folder, NAMES, NOW)


def test_the_fingerprint_is_the_one_that_phones_show(papers):
    import hashlib

    der = ssl.PEM_cert_to_DER_cert(papers.root.read_text())
    assert certificates.fingerprint(papers.root).replace(" ", "") == hashlib.sha256(der).hexdigest().upper()
