"""One settings file; the environment alone makes the difference between two sites."""

from datetime import timedelta

from csp.constants import NONE, SELF

from greens.config.broker import PATIENCE, backed_up, through_folder, through_redis
from greens.config.env import (
    BASE_DIR,
    clock_time,
    database,
    day,
    env,
    folder_of_counts,
    one_of,
    path,
    secret_key,
)
from greens.config.lines import KINDS, logging_as
from greens.config.memory import OF_EACH_PROCESS, shared_through
from greens.config.shelf import IN_A_FOLDER, in_a_bucket

DEBUG = env.bool("GREENS_DEBUG", default=False)
ALLOWED_HOSTS = env.list("GREENS_HOSTS", default=["localhost", "127.0.0.1", "testserver"])
SECRET_KEY = secret_key(ALLOWED_HOSTS)
SITE_URL = env.str("GREENS_SITE_URL", default="http://127.0.0.1:8000").rstrip("/")
FIXED_TODAY = day("GREENS_TODAY")
DATA_DIR = path("GREENS_DATA_DIR", BASE_DIR / ".data")
LOGGING = logging_as(one_of("GREENS_LOG", KINDS))

INSTALLED_APPS = [
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "django.contrib.staticfiles",
    "crispy_forms",
    "csp",
    "greens",
    "growin",
]

MIDDLEWARE = [
    "greens.middleware.seen_by_the_proxy",
    "greens.config.machines.machines_before_people",
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "greens.middleware.line_for_each_request",
    "csp.middleware.CSPMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "greens.middleware.club_time_ends_with_the_request",
    "greens.middleware.devices_are_seen",
]
METRICS_TOKEN = env.str("GREENS_METRICS_TOKEN", default="")
if METRICS_TOKEN:
    METRICS_DIR = folder_of_counts(DATA_DIR / "metrics")
    MIDDLEWARE.insert(MIDDLEWARE.index("greens.middleware.line_for_each_request"), "greens.metrics.counted")

ROOT_URLCONF = "greens.config.urls"
WSGI_APPLICATION = "greens.config.wsgi.application"

TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [BASE_DIR / "templates"],
        "OPTIONS": {
            "loaders": [
                (
                    "django.template.loaders.cached.Loader",
                    [
                        "django.template.loaders.filesystem.Loader",
                        "django.template.loaders.app_directories.Loader",
                    ],
                )
            ],
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.messages.context_processors.messages",
            ],
        },
    }
]
CRISPY_ALLOWED_TEMPLATE_PACKS = ("fieldbook",)
CRISPY_TEMPLATE_PACK = "fieldbook"

DATABASES = {"default": database(default=f"sqlite:///{DATA_DIR / 'greens.sqlite3'}")}

AUTH_USER_MODEL = "greens.Person"
LOGIN_URL = "sign_in"
PASSWORD_HASHERS = [
    "django.contrib.auth.hashers.Argon2PasswordHasher",
    "django.contrib.auth.hashers.PBKDF2PasswordHasher",
]
AUTH_PASSWORD_VALIDATORS = [
    {
        "NAME": "django.contrib.auth.password_validation.MinimumLengthValidator",
        "OPTIONS": {"min_length": 10},
    },
    {"NAME": "django.contrib.auth.password_validation.UserAttributeSimilarityValidator"},
    {"NAME": "django.contrib.auth.password_validation.CommonPasswordValidator"},
]

LANGUAGE_CODE = "en-gb"
TIME_ZONE = "UTC"
USE_TZ = True
USE_I18N = False

STATIC_URL = "/static/"
STATIC_ROOT = path("GREENS_STATIC_ROOT", DATA_DIR / "static")
WHITENOISE_USE_FINDERS = env.bool("GREENS_STATIC_FROM_SOURCE", default=True)
STATIC_ROOT.mkdir(parents=True, exist_ok=True)
MEDIA_ROOT = path("GREENS_MEDIA_ROOT", DATA_DIR / "media")
FILES_URL = env.str("GREENS_FILES_URL", default="")
STORAGES = {
    "default": in_a_bucket(FILES_URL) if FILES_URL else IN_A_FOLDER,
    "staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"},
}
CLUB_QUOTA_BYTES = env.int("GREENS_CLUB_QUOTA_MB", default=2_000) * 1_000_000
UPLOAD_LIMIT_BYTES = env.int("GREENS_UPLOAD_LIMIT_MB", default=20) * 1_000_000
PHOTOGRAPH_LIMIT_PIXELS = env.int("GREENS_PHOTOGRAPH_LIMIT_MPIXELS", default=60) * 1_000_000
FILE_UPLOAD_MAX_MEMORY_SIZE = 2_500_000
DATA_UPLOAD_MAX_MEMORY_SIZE = 2_500_000
DATA_UPLOAD_MAX_NUMBER_FIELDS = 4_000

vars().update(env.email_url("GREENS_EMAIL_URL", default="consolemail://"))
EMAIL_TIMEOUT = env.int("GREENS_EMAIL_TIMEOUT_S", default=60)
DEFAULT_FROM_EMAIL = env.str("GREENS_EMAIL_FROM", default="greens@localhost")

REDIS_URL = env.str("GREENS_REDIS_URL", default="")
vars().update(through_redis(REDIS_URL) if REDIS_URL else through_folder(DATA_DIR / "worker"))
CACHES = {"default": shared_through(REDIS_URL) if REDIS_URL else OF_EACH_PROCESS}
CELERY_TASK_IGNORE_RESULT = True
CELERY_TASK_PUBLISH_RETRY_POLICY = PATIENCE
CELERY_BROKER_CONNECTION_RETRY_ON_STARTUP = True
CELERY_BROKER_CONNECTION_MAX_RETRIES = None  # a worker waits for Redis for as long as it is away
CELERY_TIMEZONE = "UTC"
CELERY_BEAT_SCHEDULE_FILENAME = str(DATA_DIR / "worker-clock")
CELERY_BEAT_SCHEDULE = {
    "sweep jobs": {"task": "sweep jobs", "schedule": 60, "options": {"expires": 50}},
    "send mails": {"task": "send mails", "schedule": 60, "options": {"expires": 50}},
    "sweep forecasts": {"task": "sweep forecasts", "schedule": 60, "options": {"expires": 50}},
    "look at clubs": {"task": "look at clubs", "schedule": 60, "options": {"expires": 50}},
    "close clubs": {"task": "close clubs", "schedule": 3600, "options": {"expires": 3500}},
    "go on with warnings": {"task": "go on with warnings", "schedule": 300, "options": {"expires": 290}},
}

BACKUP_DIR = path("GREENS_BACKUP_DIR", DATA_DIR / "backups")
BACKUP_KEEP = env.int("GREENS_BACKUP_KEEP", default=14)
BACKUP_QUEUE = env.str("GREENS_BACKUP_QUEUE", default="celery")
CELERY_BEAT_SCHEDULE |= backed_up(clock_time("GREENS_BACKUP_AT"), BACKUP_QUEUE)

LONGEST_WAIT = timedelta(minutes=env.int("GREENS_LONGEST_WAIT_MINUTES", default=15))
INTERFACE_QUESTIONS_A_MINUTE = env.int("GREENS_INTERFACE_QUESTIONS_A_MINUTE", default=120)

SESSION_COOKIE_AGE = 60 * 60 * 24 * 60
SESSION_COOKIE_SAMESITE = CSRF_COOKIE_SAMESITE = "Lax"
SESSION_COOKIE_SECURE = CSRF_COOKIE_SECURE = SITE_URL.startswith("https://")
PROXIES = env.int("GREENS_PROXIES", default=0)
SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https") if PROXIES else None
SILENCED_SYSTEM_CHECKS = ["security.W008"]  # whoever ends TLS in front of the site also redirects to it
SECURE_HSTS_SECONDS = 31_536_000 if SITE_URL.startswith("https://") else 0
SECURE_HSTS_INCLUDE_SUBDOMAINS = SECURE_HSTS_PRELOAD = SECURE_HSTS_SECONDS > 0
SECURE_REFERRER_POLICY = "same-origin"
X_FRAME_OPTIONS = "DENY"
CSRF_FAILURE_VIEW = "greens.views.refused.stale_form"
CONTENT_SECURITY_POLICY = {
    "DIRECTIVES": {
        "default-src": [NONE],
        "script-src": [SELF],
        "style-src": [SELF],
        "img-src": [SELF],
        "media-src": [SELF],
        "font-src": [SELF],
        "connect-src": [SELF],
        "manifest-src": [SELF],
        "worker-src": [SELF],
        "form-action": [SELF],
        "base-uri": [NONE],
        "frame-ancestors": [NONE],
    }
}
