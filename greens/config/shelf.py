"""Where photographs and documents lie: a folder of this host, or a bucket for all hosts."""

from urllib.parse import parse_qs, unquote, urlsplit

from django.core.exceptions import ImproperlyConfigured

SCHEMES = {"s3": "https", "s3+http": "http"}
LOOKS_SO = "s3://KEY:SECRET@storage.example.org/bucket?region=eu-west-2 (s3+http:// inside a closed network)"


#: In MEDIA_ROOT; files are replaced under their own name, never laid beside it under another.
IN_A_FOLDER = {
    "BACKEND": "django.core.files.storage.FileSystemStorage",
    "OPTIONS": {"allow_overwrite": True},
}


def in_a_bucket(url: str) -> dict:
    """The storage that ``url`` names. Raises ImproperlyConfigured, without the secret in its words."""
    asked = urlsplit(url)
    bucket = asked.path.strip("/")
    if asked.scheme not in SCHEMES or not (asked.hostname and asked.username and asked.password and bucket):
        raise ImproperlyConfigured(f"GREENS_FILES_URL should look like {LOOKS_SO}.")
    where = asked.netloc.rpartition("@")[2]
    options = {
        "access_key": unquote(asked.username),
        "secret_key": unquote(asked.password),
        "endpoint_url": f"{SCHEMES[asked.scheme]}://{where}",
        "bucket_name": bucket,
        "region_name": parse_qs(asked.query).get("region", ["us-east-1"])[0],
    }
    return {"BACKEND": "greens.bucket.Bucket", "OPTIONS": options}
