"""Make everything ready, serve the app, and tell where it is."""

from __future__ import annotations

import os
from argparse import ArgumentParser
from typing import TYPE_CHECKING

from django.conf import settings
from django.core.management import call_command
from django.core.management.base import BaseCommand
from django.db import OperationalError, connection, transaction

from soapbench.bootstrap import manual, network
from soapbench.bootstrap.trouble import Trouble
from soapbench.workshop import entry
from soapbench.workshop.management import migrations, static_files
from soapbench.workshop.models import Person

if TYPE_CHECKING:
    from soapbench.workshop.management.banner import Part


class Command(BaseCommand):
    help = "Start soapbench for this machine and the phones on its network. Its manual: manage.py serve --help"
    requires_system_checks = []  # they import everything; the gate and the tests run them
    with_qr = True

    def add_arguments(self, parser: ArgumentParser) -> None:
        manual.add_serve_arguments(parser)

    def handle(self, *args: object, host: str, port: int, threads: int, secure: bool, **options: object) -> None:
        network.check_port(host, port)
        try:
            self.prepare(with_demo=not options["no_demo"])
        except OperationalError as error:
            raise Trouble(database_words(error)) from error
        lan = network.lan_address() if host in network.EVERY_ADDRESS else None
        answer_to(host, lan)
        settings.HOUSE_ADDRESS = f"http://{lan or host}:{port}/" if lan or not is_loopback(host) else ""
        self.with_qr = not options["no_qr"]
        serve = self.serve_secure if secure else self.serve_plain
        serve(host, port, threads, lan)
        self.stdout.write("Stopped. Everything is kept.")

    def prepare(self, *, with_demo: bool = True) -> None:
        """Bring database and static files up to date; fill an empty database."""
        is_new_version = migrations.pending()
        if is_new_version:
            self.stdout.write("Bringing the database up to date.")
            call_command("migrate", interactive=False, verbosity=0)
        if is_new_version and Person.objects.exists():
            call_command("load_reference", verbosity=0)  # a new version may know more of a material
        if not Person.objects.exists():
            self.stdout.write(f"Loading the reference data{' and the demo workshop' if with_demo else ''}.")
            with transaction.atomic():  # all or nothing, so that a start broken off is simply begun again
                call_command("load_reference", verbosity=0)
                if with_demo:
                    call_command("load_demo", verbosity=0)
        static_files.collect_if_changed()

    def serve_plain(self, host: str, port: int, threads: int, lan: str | None) -> None:
        # Imported only now: the application reads the settings that were just completed.
        from soapbench.workshop.management import banner, server
        from soapbench.wsgi import application

        running = server.listen(host, port, threads, application)
        on_lan = host in network.EVERY_ADDRESS
        server.run(running, lambda: self.announce(banner.plain(port, phone_address(host, port, lan), lan=on_lan)))

    def serve_secure(self, host: str, port: int, threads: int, lan: str | None) -> None:
        from soapbench.workshop.management import banner, secure, server

        papers = secure.prepare(host, port, lan)
        from soapbench.wsgi import application

        secured = secure.listen(host, port, threads, application, papers)
        secured.start_care()
        first, door, on_lan = f"{settings.DOOR_ADDRESS}phone/", secure.door_of(port), host in network.EVERY_ADDRESS

        def announce() -> None:
            phone = phone_address(host, port, lan, scheme="https")
            told = banner.secure(door, phone, first, settings.ROOT_FINGERPRINT, lan=on_lan, is_new=papers.is_new_root)
            self.announce(told)

        server.run(secured.main, announce)
        secured.stop()

    def announce(self, parts: list[Part]) -> None:
        """Print the addresses, and QR codes where the terminal can show them."""
        for part in parts:
            self.stdout.write("\n".join(part.lines))
            if part.code and self.with_qr:
                self.show_qr(part.code)
        self.stdout.flush()
        connection.close()  # it was this thread's own

    def show_qr(self, address: str) -> None:
        from soapbench.workshop.management import banner

        try:
            self.stdout.write(banner.qr(address, colours=self.stdout.isatty()))
        except UnicodeEncodeError:
            self.stdout.write("  (This terminal cannot show a QR code; type the address instead.)")


def database_words(error: OperationalError) -> str:
    """Return one sentence for a database that does not let us in."""
    where = settings.DATABASES["default"]["HOST"] or settings.DATABASES["default"]["NAME"]
    reason = " ".join(str(error).split())
    return (
        f"The database at {where} could not be opened or written to ({reason}): "
        "see that it is there, that your user may write to it and its folder, and that nothing else holds it."
    )


def answer_to(host: str, lan: str | None) -> None:
    """Let the app answer under the names that this machine has, and trust who sits at it unless told not to."""
    own = {host, lan, "localhost", "127.0.0.1", "[::1]", *network.host_names()}
    settings.ALLOWED_HOSTS = [*settings.ALLOWED_HOSTS, *sorted(name for name in own if name)]
    if "SOAPBENCH_TRUST_THIS_MACHINE" not in os.environ:
        settings.TRUST_THIS_MACHINE = True


def is_loopback(host: str) -> bool:
    """Return whether only this machine itself gets there."""
    return host in ("localhost", "::1") or host.startswith("127.") or host in network.EVERY_ADDRESS


def phone_address(host: str, port: int, lan: str | None, *, scheme: str = "http") -> str | None:
    """Return the address that the phone opens, with a signed link for the owner; None where no phone gets."""
    if not lan and is_loopback(host):
        return None
    person = Person.objects.filter(is_active=True, is_owner=True).order_by("pk").first()
    return f"{scheme}://{lan or host}:{port}{entry.entry_path(person) if person else '/'}"
