"""Make everything ready, serve the app, and tell where it is."""

import os
import socket
from argparse import ArgumentParser

from django.conf import settings
from django.core.management import call_command
from django.core.management.base import BaseCommand
from django.db import OperationalError, connection, transaction

from soapbench.bootstrap import manual, network
from soapbench.bootstrap.trouble import Trouble
from soapbench.workshop import entry
from soapbench.workshop.management import migrations, static_files
from soapbench.workshop.models import Person


class Command(BaseCommand):
    help = "Start soapbench for this machine and the phones on its network. Its manual: manage.py serve --help"
    requires_system_checks = []  # they import everything; the gate and the tests run them

    def add_arguments(self, parser: ArgumentParser) -> None:
        manual.add_serve_arguments(parser)

    def handle(self, *args: object, host: str, port: int, threads: int, **options: object) -> None:
        network.check_port(host, port)
        try:
            self.prepare(with_demo=not options["no_demo"])
        except OperationalError as error:
            raise Trouble(database_words(error)) from error
        lan = network.lan_address() if host in network.EVERY_ADDRESS else None
        answer_to(host, lan)
        # Imported only now: the application reads the settings that were just completed.
        from soapbench.workshop.management import server
        from soapbench.wsgi import application

        running = server.listen(host, port, threads, application)
        server.run(running, lambda: self.announce(host, port, lan, with_qr=not options["no_qr"]))
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

    def announce(self, host: str, port: int, lan: str | None, *, with_qr: bool) -> None:
        """Print the addresses, and the QR code where the terminal can show it."""
        from soapbench.workshop.management import banner

        phone = phone_address(lan or host, port) if lan or not is_loopback(host) else None
        self.stdout.write("\n".join(banner.lines(port, phone, lan=host in network.EVERY_ADDRESS)))
        if phone and with_qr:
            try:
                self.stdout.write(banner.qr(phone, colours=self.stdout.isatty()))
            except UnicodeEncodeError:
                self.stdout.write("  (This terminal cannot show a QR code; type the address instead.)")
        self.stdout.flush()
        connection.close()  # it was this thread's own


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
    own = {host, lan, "localhost", "127.0.0.1", "[::1]", socket.gethostname(), f"{socket.gethostname()}.local"}
    settings.ALLOWED_HOSTS = [*settings.ALLOWED_HOSTS, *sorted(name for name in own if name)]
    if "SOAPBENCH_TRUST_THIS_MACHINE" not in os.environ:
        settings.TRUST_THIS_MACHINE = True


def is_loopback(host: str) -> bool:
    """Return whether only this machine itself gets there."""
    return host in ("localhost", "::1") or host.startswith("127.") or host in network.EVERY_ADDRESS


def phone_address(host: str, port: int) -> str:
    """Return the address that the phone opens, with a signed link for the owner."""
    person = Person.objects.filter(is_active=True, is_owner=True).order_by("pk").first()
    return f"http://{host}:{port}{entry.entry_path(person) if person else '/'}"
