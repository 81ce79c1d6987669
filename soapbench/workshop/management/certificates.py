"""A root certificate of this machine's own, and what it signs: so that phones on the network may speak HTTPS with it.

Everything is in one folder. The keys are readable by their owner alone. The root can vouch for nothing but private
networks, names ending in .local and this machine's own names, so that a phone that trusts it risks nothing else.
"""

from __future__ import annotations

import os
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from ipaddress import IPv4Address, IPv6Address, ip_address, ip_network
from pathlib import Path

from cryptography import x509
from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from soapbench.bootstrap.trouble import Trouble

ROOT_LASTS = timedelta(days=3650)
LEAF_LASTS = timedelta(days=397)  # what browsers accept at most from public roots, CA/Browser Forum; ours may as well
RENEW_BEFORE = timedelta(days=30)
CLOCKS_DIFFER = timedelta(days=1)  # a phone whose clock is behind must not find it "not yet valid"
# RFC 1918, 3927, 6598, 4193, 4291 and the loopback: addresses that mean something on one network only.
PRIVATE = (
    "10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "169.254.0.0/16", "100.64.0.0/10", "127.0.0.0/8",
    "fc00::/7", "fe80::/10", "::1/128",
)  # fmt: skip
PRIVATE_NAMES = ("local", "localhost")


@dataclass(frozen=True)
class Papers:
    """Where the certificates are, and whether any of them is new."""

    folder: Path
    is_new_root: bool = False  # phones have to get to know this machine (again)
    is_new_leaf: bool = False

    @property
    def root(self) -> Path:
        return self.folder / "root.crt"

    @property
    def root_key(self) -> Path:
        return self.folder / "root.key"

    @property
    def leaf(self) -> Path:
        return self.folder / "machine.crt"

    @property
    def leaf_key(self) -> Path:
        return self.folder / "machine.key"


def ensure(folder: Path, names: Sequence[str], now: datetime) -> Papers:
    """Return certificates that are good for these names and addresses, making what is missing, too old or too narrow.

    Raises:
        Trouble: what is in the folder cannot be read.
    """
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    papers = Papers(folder)
    is_new_root = not _is_root_good(papers, names, now)
    if is_new_root:
        _make_root(papers, names, now)
    is_new_leaf = is_new_root or not _is_leaf_good(papers, names, now)
    if is_new_leaf:
        _make_leaf(papers, names, now)
    return Papers(folder, is_new_root, is_new_leaf)


def fingerprint(certificate: Path) -> str:
    """Return the SHA-256 fingerprint as phones show it: pairs of hexadecimal digits."""
    return _read(certificate).fingerprint(hashes.SHA256()).hex(" ").upper()


def _is_root_good(papers: Papers, names: Sequence[str], now: datetime) -> bool:
    if not _belong(papers.root, papers.root_key):
        return False
    root = _read(papers.root)
    allowed = root.extensions.get_extension_for_class(x509.NameConstraints).value
    return root.not_valid_after_utc - RENEW_BEFORE > now and all(_is_allowed(name, allowed) for name in names)


def _is_allowed(name: str, constraints: x509.NameConstraints) -> bool:
    for allowed in constraints.permitted_subtrees or ():
        if isinstance(allowed, x509.IPAddress):
            if (address := _address(name)) is not None and address in ip_network(str(allowed.value)):
                return True
        elif isinstance(allowed, x509.DNSName) and f".{name}".endswith(f".{allowed.value}"):
            return True
    return False


def _is_leaf_good(papers: Papers, names: Sequence[str], now: datetime) -> bool:
    if not _belong(papers.leaf, papers.leaf_key):
        return False
    leaf = _read(papers.leaf)
    named = leaf.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    try:
        leaf.verify_directly_issued_by(_read(papers.root))
    except InvalidSignature:
        return False
    return leaf.not_valid_after_utc - RENEW_BEFORE > now and {_general(name) for name in names} <= set(named)


def _make_root(papers: Papers, names: Sequence[str], now: datetime) -> None:
    key = ec.generate_private_key(ec.SECP256R1())
    known_by = x509.SubjectKeyIdentifier.from_public_key(key.public_key())
    # The digits tell an old root from a new one in the phone's list.
    name = _name(f"soapbench {known_by.digest[:2].hex().upper()} at {names[0]}")
    builder = _certificate(name, name, key.public_key(), now, ROOT_LASTS)
    builder = builder.add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
    builder = builder.add_extension(_usage(signs_certificates=True), critical=True)
    builder = builder.add_extension(_constraints(names), critical=True)
    builder = builder.add_extension(known_by, critical=False)
    _write(papers.root_key, _pem(key), 0o600)
    _write(papers.root, builder.sign(key, hashes.SHA256()).public_bytes(serialization.Encoding.PEM), 0o644)


def _constraints(names: Sequence[str]) -> x509.NameConstraints:
    own = [name for name in names if not _is_allowed(name, _only([*PRIVATE, *PRIVATE_NAMES]))]
    return _only([*PRIVATE, *PRIVATE_NAMES, *own])


def _only(allowed: Sequence[str]) -> x509.NameConstraints:
    networks = [x509.IPAddress(ip_network(each)) for each in allowed if "/" in each or _address(each)]
    names = [x509.DNSName(each) for each in allowed if "/" not in each and not _address(each)]
    return x509.NameConstraints([*networks, *names], None)


def _make_leaf(papers: Papers, names: Sequence[str], now: datetime) -> None:
    root, root_key = _read(papers.root), _read_key(papers.root_key)
    key = ec.generate_private_key(ec.SECP256R1())
    builder = _certificate(_name(names[0]), root.subject, key.public_key(), now, LEAF_LASTS)
    builder = builder.add_extension(x509.SubjectAlternativeName([_general(name) for name in names]), critical=False)
    builder = builder.add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
    builder = builder.add_extension(_usage(signs_certificates=False), critical=True)
    builder = builder.add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
    builder = builder.add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
    issuer = x509.AuthorityKeyIdentifier.from_issuer_public_key(root_key.public_key())
    builder = builder.add_extension(issuer, critical=False)
    _write(papers.leaf_key, _pem(key), 0o600)
    _write(papers.leaf, builder.sign(root_key, hashes.SHA256()).public_bytes(serialization.Encoding.PEM), 0o644)


def _certificate(
    subject: x509.Name, issuer: x509.Name, key: ec.EllipticCurvePublicKey, now: datetime, lasts: timedelta
) -> x509.CertificateBuilder:
    builder = x509.CertificateBuilder().subject_name(subject).issuer_name(issuer).public_key(key)
    builder = builder.serial_number(x509.random_serial_number())
    return builder.not_valid_before(now - CLOCKS_DIFFER).not_valid_after(now + lasts)


def _usage(*, signs_certificates: bool) -> x509.KeyUsage:
    return x509.KeyUsage(
        digital_signature=not signs_certificates,
        key_cert_sign=signs_certificates,
        crl_sign=signs_certificates,
        content_commitment=False,
        key_encipherment=False,
        data_encipherment=False,
        key_agreement=False,
        encipher_only=False,
        decipher_only=False,
    )


def _name(common: str) -> x509.Name:
    parts = [(NameOID.ORGANIZATION_NAME, "soapbench"), (NameOID.COMMON_NAME, common[:64])]  # 64: X.520's limit
    return x509.Name([x509.NameAttribute(kind, value) for kind, value in parts])


def _general(name: str) -> x509.GeneralName:
    address = _address(name)
    return x509.DNSName(name) if address is None else x509.IPAddress(address)


def _address(name: str) -> IPv4Address | IPv6Address | None:
    try:
        return ip_address(name)
    except ValueError:
        return None


def _read(path: Path) -> x509.Certificate:
    try:
        return x509.load_pem_x509_certificate(path.read_bytes())
    except ValueError as error:
        raise _unreadable(path) from error


def _read_key(path: Path) -> ec.EllipticCurvePrivateKey:
    try:
        key = serialization.load_pem_private_key(path.read_bytes(), password=None)
    except ValueError as error:
        raise _unreadable(path) from error
    if not isinstance(key, ec.EllipticCurvePrivateKey):
        raise _unreadable(path)
    return key


def _unreadable(path: Path) -> Trouble:
    return Trouble(
        f"The certificate file {path} cannot be read: remove the folder {path.parent}, start again, "
        "and let each phone get to know this machine anew."
    )


def _belong(certificate: Path, key: Path) -> bool:
    """Return whether both are there and of one making: a start may have been broken off between them."""
    if not (certificate.exists() and key.exists()):
        return False
    return _read(certificate).public_key() == _read_key(key).public_key()


def _pem(key: ec.EllipticCurvePrivateKey) -> bytes:
    kind = serialization.PrivateFormat.PKCS8
    return key.private_bytes(serialization.Encoding.PEM, kind, serialization.NoEncryption())


def _write(path: Path, content: bytes, mode: int) -> None:
    """Write a file whole or not at all, and never readable by others even for a moment."""
    fresh = path.with_suffix(f"{path.suffix}.new")
    fresh.unlink(missing_ok=True)
    with os.fdopen(os.open(fresh, os.O_WRONLY | os.O_CREAT | os.O_EXCL, mode), "wb") as file:
        file.write(content)
    os.replace(fresh, path)
