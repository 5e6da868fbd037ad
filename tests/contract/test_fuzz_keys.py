"""The contract holds with keys too: a short fuzz of a few operations of each kind, shown a key."""

import hashlib
import tomllib
from pathlib import Path

import schemathesis

from service.app import create_app
from service.settings import Key, Rate, Settings

KEY = "k" * 43
EXAMPLES = 20
PATHS = "^/(v1/drain-pitch|v1/reference/units|livez|readyz|metrics|problems/.slug.)$"

CONFIG = tomllib.loads((Path(__file__).parent / "schemathesis.toml").read_text())
CONFIG |= {"seed": 1, "headers": {"Authorization": f"Bearer {KEY}"}}
CONFIG["generation"]["max-examples"] = EXAMPLES

application = create_app(
    Settings(
        log_level="error",
        keys=(Key("fuzz", hashlib.sha256(KEY.encode()).digest()),),
        rate_limit=Rate(1_000_000, 1),
        concurrency_limit=1,
    )
)
api = schemathesis.openapi.from_wsgi("/openapi.json", application, config=schemathesis.Config.from_dict(CONFIG))


@api.include(path_regex=PATHS).parametrize()
def test_the_service_keeps_its_contract_with_keys(case: schemathesis.Case) -> None:
    response = case.call()
    assert response.status_code not in (401, 429, 503), "the key opens, and the limits are wide"
    case.validate_response(response)
