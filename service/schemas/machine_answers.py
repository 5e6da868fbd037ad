"""What the operations for machines answer: is it there, does it calculate right, the contract."""

from service.schemas.fields import Text
from service.schemas.payload import Written


class Liveness(Written):
    """The process answers, and what it is."""

    status = Text(required=True, description="`pass`.")
    version = Text(required=True, description="Version of the code.")
    contract_version = Text(required=True, description="Version of this contract.")
    revision = Text(required=True, description="Which build it is; `unknown` where nobody said.")


class Readiness(Written):
    """The service calculates right."""

    status = Text(required=True, description="`pass`.")


class OpenApiDocument(Written):
    """An OpenAPI document; its members are those of the OpenAPI Specification."""

    openapi = Text(required=True, description="Version of the OpenAPI Specification.")
