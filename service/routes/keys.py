"""Keys: who may ask for what.

References
----------
.. [1] RFC 6750, The OAuth 2.0 Authorization Framework: Bearer Token Usage, 2.1 and 3.
"""

import functools
import hmac
from collections.abc import Iterable
from hashlib import sha256

from flask import Flask

from service.routes.problems import Problem
from service.settings import Key

OPEN_PATHS = frozenset(
    {"/livez", "/readyz", "/openapi.json", "/docs", "/docs/{page}", "/docs/assets/{name}", "/problems/{slug}"}
)
"""Need no key: a probe has none, whoever is refused must be able to read why, and the contract is no secret."""

SECURITY_SCHEME = {
    "type": "http",
    "scheme": "bearer",
    "description": "A key, where the service was started with keys; without, it asks for none. `401` tells.",
}

SHORTEST_KEY = 32
"""Fewest characters of a key: a digest protects what cannot be guessed, and nothing else."""

_REALM = 'Bearer realm="condensate drainage"'


class KeyRing:
    """The keys that open the service, by their digests.

    Parameters
    ----------
    keys : iterable of Key
    """

    def __init__(self, keys: Iterable[Key]) -> None:
        self._keys = tuple(keys)

    def __bool__(self) -> bool:
        return bool(self._keys)

    def replace(self, keys: Iterable[Key]) -> None:
        """Take other keys from now on: the ring of a server that was told to read its settings again."""
        self._keys = tuple(keys)

    def name_of(self, shown: str) -> str | None:
        """Name of a key, or None; every key is compared, each in constant time."""
        digest = sha256(shown.encode("utf-8", "surrogatepass")).digest()
        name = None
        for key in self._keys:
            if hmac.compare_digest(key.digest, digest):
                name = key.name
        return name if len(shown) >= SHORTEST_KEY else None


def key_shown(authorization: str) -> str | None:
    """The key in an Authorization field [1]_, or None where there is no field or another scheme."""
    scheme, _, shown = authorization.partition(" ")
    return shown.strip() if scheme.lower() == "bearer" else None


def key_required(shown: str | None) -> Problem:
    """The problem of a request without a key, or with one that opens nothing."""
    if shown is None:
        challenge, detail = _REALM, "This service asks for a key; send it as Authorization: Bearer and the key."
    else:
        challenge = f'{_REALM}, error="invalid_token"'
        detail = "The key in the Authorization field is none that opens this service."
    return Problem("key-required", detail=detail, headers={"WWW-Authenticate": challenge})


def open_endpoints(app: Flask) -> frozenset[str]:
    """Endpoints of the application that need no key."""
    return frozenset(rule.endpoint for rule in app.url_map.iter_rules() if path_template(rule.rule) in OPEN_PATHS)


@functools.cache
def path_template(rule: str) -> str:
    """A rule of the application as the document writes it: ``/problems/{slug}``."""
    return rule.replace("<", "{").replace(">", "}")
