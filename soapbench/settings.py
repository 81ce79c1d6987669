"""All settings, read from the environment, safe when nothing is set.

Every variable is named SOAPBENCH_* and described in DEVELOPERS.md.
"""

from pathlib import Path

from soapbench.secret import own_secret
from soapbench.variables import Variables

BASE_DIR = Path(__file__).resolve().parent.parent

env = Variables(prefix="SOAPBENCH_")
env.read_file(BASE_DIR / ".env")

# Where the database, photos, collected files and the secret live.
DATA_DIR = Path(env.text("DATA", str(BASE_DIR / ".data")))

DEBUG = env.flag("DEBUG")
SECRET_KEY = env.text("SECRET") or own_secret(DATA_DIR)

# `manage.py serve` sets this: whoever sits at the machine itself is its owner and needs no password.
TRUST_THIS_MACHINE = env.flag("TRUST_THIS_MACHINE")
ALLOWED_HOSTS = env.words("HOSTS", ["localhost", "127.0.0.1", "[::1]"])
CSRF_TRUSTED_ORIGINS = env.words("ORIGINS", [])
BEHIND_HTTPS = env.flag("HTTPS")
OFFLINE = not env.flag("NO_SERVICE_WORKER")  # off: phones put their service worker away at the next visit

INSTALLED_APPS = [
    "soapbench.workshop",
    "soapbench.shelf",
    "soapbench.bars",
    "soapbench.bench",
    "soapbench.rack",
    "soapbench.logbook",
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.humanize",
    "django.contrib.messages",
    "django.contrib.sessions",
    "django.contrib.staticfiles",
    "template_partials",
]

MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "django.middleware.gzip.GZipMiddleware",  # pages only: whitenoise has its files made small beforehand
    "soapbench.csp.ContentSecurityPolicyMiddleware",
    "soapbench.workshop.offline.EditionMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.locale.LocaleMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "soapbench.workshop.entry.OwnMachineMiddleware",
    "django.contrib.auth.middleware.LoginRequiredMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "django_htmx.middleware.HtmxMiddleware",
]

ROOT_URLCONF = "soapbench.urls"
WSGI_APPLICATION = "soapbench.wsgi.application"

TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [BASE_DIR / "templates"],
        "APP_DIRS": False,
        "OPTIONS": {
            "loaders": [
                (
                    "template_partials.loader.Loader",
                    [
                        (
                            "django.template.loaders.cached.Loader",
                            ["django.template.loaders.filesystem.Loader"],
                        )
                    ],
                )
            ],
            "builtins": ["template_partials.templatetags.partials"],
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
                "soapbench.workshop.context.house",
            ],
        },
    }
]

# An acknowledged event must outlive a power cut, hence synchronous=FULL; IMMEDIATE avoids
# the upgrade from a read to a write lock that SQLite refuses under load.
SQLITE_OPTIONS = {
    "timeout": 20,
    "transaction_mode": "IMMEDIATE",
    "init_command": "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL; PRAGMA foreign_keys=ON;",
}
DATABASES = {"default": env.database("DATABASE", DATA_DIR / "soapbench.sqlite3")}
if DATABASES["default"]["ENGINE"].endswith("sqlite3"):
    DATABASES["default"]["OPTIONS"] = SQLITE_OPTIONS
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"

AUTH_USER_MODEL = "workshop.Person"
LOGIN_URL = "workshop:sign_in"
LOGIN_REDIRECT_URL = "bench:home"
LOGOUT_REDIRECT_URL = "workshop:sign_in"
PASSWORD_HASHERS = [
    "django.contrib.auth.hashers.Argon2PasswordHasher",
    "django.contrib.auth.hashers.PBKDF2PasswordHasher",
]
AUTH_PASSWORD_VALIDATORS = [{"NAME": "django.contrib.auth.password_validation.MinimumLengthValidator"}]

LANGUAGE_CODE = env.text("LANGUAGE", "en")
LANGUAGES = [("en", "English")]
LOCALE_PATHS = [BASE_DIR / "soapbench" / "locale"]
TIME_ZONE = env.text("TIME_ZONE", "UTC")
USE_I18N = True
USE_TZ = True

STATIC_URL = "static/"
STATICFILES_DIRS = [BASE_DIR / "static"]
STATIC_ROOT = DATA_DIR / "static"
MEDIA_ROOT = DATA_DIR / "media"
FILE_UPLOAD_HANDLERS = [
    "soapbench.bench.uploads.SmallFilesOnly",
    "django.core.files.uploadhandler.MemoryFileUploadHandler",
    "django.core.files.uploadhandler.TemporaryFileUploadHandler",
]
STORAGES = {
    "default": {"BACKEND": "django.core.files.storage.FileSystemStorage"},
    "staticfiles": {"BACKEND": "soapbench.static.HashedStaticFiles"},
}

# The shape that Django 6 reads; no nonces, because they go stale in pages kept offline.
SECURE_CSP = {
    "default-src": ["'self'"],
    "img-src": ["'self'", "data:", "blob:"],
    "media-src": ["'self'", "blob:"],
    "style-src": ["'self'"],
    "object-src": ["'none'"],
    "base-uri": ["'self'"],
    "form-action": ["'self'"],
    "frame-ancestors": ["'none'"],
}
SECURE_REFERRER_POLICY = "same-origin"
SESSION_COOKIE_AGE = 60 * 60 * 24 * 90  # a phone at the bench stays signed in for a season
SESSION_COOKIE_SECURE = CSRF_COOKIE_SECURE = BEHIND_HTTPS
if BEHIND_HTTPS:
    SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https")

# `manage.py serve` sets these. This machine as phones reach it, such as http://192.168.1.20:8000/; with --secure,
# also the plain address where a new phone gets to know it, and the root certificate that is offered there.
HOUSE_ADDRESS = ""
DOOR_ADDRESS = ""
ROOT_CERTIFICATE = ""
ROOT_FINGERPRINT = ""

FIXTURES_DIR = BASE_DIR / "fixtures"
CSRF_FAILURE_VIEW = "soapbench.workshop.views.csrf_refused"

# The shelf shows what is left; only the bench knows what was weighed out, and the shelf must not import it.
USED_BY_LOT = "soapbench.bench.stock.used_by_lot"
