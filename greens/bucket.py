"""A bucket of object storage as the shelf of several hosts; loaded only where the settings name it."""

from botocore.config import Config
from storages.backends.s3 import S3Storage

#: Checksums beyond the protocol's own are asked for only where a call needs them: not every make of
#: object storage knows them. A page waits no longer for a bucket than for a database.
PATIENT = Config(
    connect_timeout=5,
    read_timeout=20,
    retries={"max_attempts": 3, "mode": "standard"},
    request_checksum_calculation="when_required",
    response_checksum_validation="when_required",
    s3={"addressing_style": "path"},
)


class Bucket(S3Storage):
    """Private objects, written over under the same name, spoken to with our patience."""

    def get_default_settings(self) -> dict:
        """What holds unless the settings say otherwise."""
        return super().get_default_settings() | {"client_config": PATIENT, "default_acl": None}
