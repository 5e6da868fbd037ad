"""The OpenAPI document: generated from the decorators, schemas and fields, never typed by hand.

flask-smorest and apispec do the walking. What they describe wrongly for JSON Schema 2020-12
(closed objects with a description, per-unit bounds, member groups, problem details, the Allow
field) is put right in the three small subclasses here.
"""

import inspect
from pathlib import Path
from typing import Any

import flask_smorest
import orjson
from apispec.ext.marshmallow import MarshmallowPlugin, OpenAPIConverter
from flask import Flask, Response
from werkzeug.exceptions import HTTPException

from service.pages.shell import PAGES
from service.routes.keys import OPEN_PATHS, SECURITY_SCHEME
from service.routes.negotiation import LANGUAGE_HEADER, LANGUAGE_PARAMETER
from service.routes.problem_answers import add_examples, problem_responses
from service.routes.problems import Problem, answer_http_exception, answer_problem
from service.routes.reading import TABLE_TYPE
from service.schemas.fields import Field, Part, Rows
from service.schemas.line_text import LINES_TYPE
from service.schemas.payload import Payload, group_schema
from service.schemas.word_lists import PROBLEM_SLUGS, UNIT_LISTS, WordList
from service.tables.languages import SPANISH
from service.units import KINDS

CONTRACT_VERSION = "0.2.0"
"""Semantic version of the contract; DEVELOPERS.md says how it moves."""

DRAWING = "image/svg+xml"

IN_SPANISH = {"/v1/assessment": "attic-unit"}
"""Worked examples whose answer is shown in Spanish too, by path."""

OWN_REQUEST = "service.own"
"""In the WSGI environment of what the application asks itself for its document: needs no key, is not counted."""

TITLE = "Condensate drainage service"

DESCRIPTION = """\
Answers the questions a service technician has about the wet side of cooling equipment: how much water a unit makes, \
whether the trap drains with the fan running and keeps its seal, whether the line falls and is big enough, whether the \
pump can do the lift, and how long there is when any of it blocks.

**Every calculation** is a POST of one JSON object to a noun under `/v1`, is stateless, and answers the same envelope: \
`verdict` (the worst severity among the findings), `results`, `findings` (each with a remedy), `assumptions` (every \
default that entered the numbers), `cautions` and `sources`. An unwelcome answer is not an error: a pump that cannot \
lift the water is a 200 with the verdict `fail`.

**Quantities** are `{"value": number, "unit": "symbol"}` both ways. Send whichever unit you measured in; \
`?units=us` (the default) or `?units=si` chooses the units of the answer. The bounds of every member are given per \
unit, as `if`/`then` on the unit.

**Pictures**: where an operation lists `image/svg+xml` among its answers, send that in `Accept` and get a drawing of \
the same answer, made to be read on a phone. An assessment also comes as a report, `text/html` or `application/pdf`.

**Spoken language**: `Accept-Language: es` has findings, remedies, cautions, notes, drawings and reports in Spanish. \
Codes, member names and numbers stay the same; any other language gives US English, never a refusal.

**Errors** are RFC 9457 problem details. `400`: the body does not match the schema; `errors` names every fault at once \
with a JSON Pointer (the first 500, and 100 unknown members; beyond, a count). \
`422`: the members are each in range but contradict each other. `type` is a page that explains.

**Keys**: a service that was started with keys answers `401` to calculations, tables and counts without one; probes, \
this document and the pages of problems stay open. **Limits**, where they are set: `429` and `503` come with \
`Retry-After`, and every answer with `RateLimit`. **To find a request again**: `X-Request-ID` is taken over or made \
up, and comes back.

Local code and the authority having jurisdiction, the equipment's instructions and licensed practice govern; these \
answers do not replace them.

Beside this reference: a [guide](/docs/guide) to begin with, a [command for each operation](/docs/book), the \
[ten commonest mistakes](/docs/mistakes), and [every finding](/docs/findings) that an answer may hold.
"""

PROBLEM_SCHEMA = {
    "type": "object",
    "description": "RFC 9457 problem details.",
    "properties": {
        "type": {"type": "string", "format": "uri-reference", "description": "Page that explains this problem type."},
        "title": {"type": "string", "description": "Short name of the problem type."},
        "status": {"type": "integer", "minimum": 400, "maximum": 599, "description": "The HTTP status."},
        "detail": {"type": "string", "description": "What is wrong with this request."},
        "instance": {"type": "string", "format": "uri-reference", "description": "Path of the request."},
        "request_id": {
            "type": "string",
            "maxLength": 128,
            "description": "What the service's log has this request under; also in the X-Request-ID field.",
        },
        "errors": {
            "type": "array",
            "maxItems": 100000,
            "description": "Every fault found, at once; empty where the fault is not in a member.",
            "items": {"$ref": "#/components/schemas/Fault"},
        },
    },
    "required": ["type", "title", "status", "detail", "instance", "errors"],
}

FAULT_SCHEMA = {
    "type": "object",
    "description": "One fault of a request.",
    "properties": {
        "pointer": {
            "type": "string",
            "description": "RFC 6901 pointer to the member of the body; empty for the whole.",
        },
        "code": {
            "type": "string",
            "description": "Code of the finding that says what contradicts what; with a contradiction only.",
        },
        "parameter": {"type": "string", "description": "Name of the query parameter, where the fault is there."},
        "line": {"type": "integer", "minimum": 1, "description": "Line of a body in CSV or of one unit a line."},
        "column": {"type": "string", "description": "Name of the column of a body in CSV, where the fault is in one."},
        "detail": {"type": "string", "description": "What was received and what is allowed."},
    },
    "required": ["detail"],
}


DOCS_PAGES = WordList("DocsPage", tuple(PAGES), "Page beside the reference.")


class Converter(OpenAPIConverter):  # type: ignore[misc]
    """Lets every field and payload of ours describe itself."""

    def field2property(self, field: Any) -> dict[str, Any]:
        """Describe one member."""
        if isinstance(field, Field):
            for payload in field.refers_to:
                self.resolve_nested_schema(payload)
            self.spec.components.schemas.update(field.components)
            return field.property_schema()
        if isinstance(field, Part):
            schema = dict(self.resolve_nested_schema(field.schema))
        elif isinstance(field, Rows):
            items = {k: v for k, v in self.field2property(field.inner).items() if k != "description" or "$ref" not in v}
            schema = {"type": "array", "minItems": field.fewest, "maxItems": field.most, "items": items}
        else:
            raise TypeError(f"{type(field).__name__} cannot describe itself")
        if field.nullable:
            schema = {"anyOf": [schema, {"type": "null"}]}
        return {**schema, "description": field.description}

    def schema2jsonschema(self, schema: Any) -> dict[str, Any]:
        """Describe one object."""
        payload: Payload = schema() if isinstance(schema, type) else schema
        described: dict[str, Any] = self.fields2jsonschema(payload.fields)
        described["description"] = inspect.getdoc(payload) or ""
        if payload.closed:
            described["additionalProperties"] = False
        described.update(group_schema(payload))
        return described


class Plugin(MarshmallowPlugin):  # type: ignore[misc]
    """apispec's marshmallow plugin with our converter."""

    Converter = Converter


class Api(flask_smorest.Api):  # type: ignore[misc]
    """flask-smorest's registry, answering problem details and keeping the header fields of an error."""

    DEFAULT_ERROR_RESPONSE_NAME = None

    def __init__(self, app: Flask) -> None:
        app.config.update(
            API_TITLE=TITLE,
            API_VERSION=CONTRACT_VERSION,
            OPENAPI_VERSION="3.1.0",
            API_SPEC_OPTIONS={
                "info": {
                    "description": DESCRIPTION,
                    "contact": {"name": "Maintainers of the condensate drainage service"},
                    "license": {"name": "Proprietary", "identifier": "LicenseRef-Proprietary"},
                },
                "servers": [{"url": "/", "description": "The service that serves this document."}],
                "security": [{}, {"bearer": []}],
            },
        )
        app.url_map.merge_slashes = False  # a double slash is another path: a 404, not a redirect in HTML
        super().__init__(
            app,
            spec_kwargs={
                "marshmallow_plugin": Plugin(),
            },
        )

    def _register_responses(self) -> None:
        """Describe the problem answers, and one component per kind of quantity."""
        schemas = self.spec.components.schemas
        schemas["Problem"], schemas["Fault"] = PROBLEM_SCHEMA, FAULT_SCHEMA
        schemas |= {each.name: each.json_schema() for each in (PROBLEM_SLUGS, DOCS_PAGES, *UNIT_LISTS)}
        for kind in KINDS.values():
            schemas[kind.title] = {
                "type": "object",
                "description": f"{kind.name.replace('_', ' ').capitalize()}, in any of its units.",
                "properties": {
                    "value": {"type": "number", "description": "The number."},
                    "unit": {"$ref": f"#/components/schemas/{kind.title}Unit", "description": "The unit."},
                },
                "required": ["value", "unit"],
                "additionalProperties": False,
            }
        self.spec.components.parameter("AcceptLanguage", "header", LANGUAGE_PARAMETER)
        self.spec.components.header("ContentLanguage", LANGUAGE_HEADER)
        self.spec.components.security_scheme("bearer", SECURITY_SCHEME)
        for name, response in problem_responses().items():
            self.spec.components.response(name, response, lazy=True)

    def _register_etag_headers(self) -> None:
        """Nothing: no operation uses flask-smorest's entity tags."""

    def _register_pagination_header(self) -> None:
        """Nothing: no operation is paged."""

    def _register_error_handlers(self) -> None:
        self._app.register_error_handler(Problem, answer_problem)
        self._app.register_error_handler(HTTPException, self.handle_http_exception)

    def handle_http_exception(self, error: HTTPException) -> Response:
        """Answer what Flask raised as a problem."""
        return answer_http_exception(error)


def shortened(value: Any) -> Any:
    """A JSON value for an example, its numbers to nine digits: the last ones differ from one processor to another.

    Examples
    --------
    >>> shortened({"value": 45.67956392021763, "unit": "gal"})
    {'value': 45.6795639, 'unit': 'gal'}
    """
    if isinstance(value, float):
        return float(f"{value:.9g}")
    if isinstance(value, dict):
        return {name: shortened(member) for name, member in value.items()}
    return [shortened(member) for member in value] if isinstance(value, list) else value


def _shortened_lines(text: bytes) -> str:
    return b"".join(orjson.dumps(shortened(orjson.loads(row))) + b"\n" for row in text.splitlines()).decode()


def outline_of(app: Flask) -> dict[str, Any]:
    """The document without the answers of its worked examples, which take longer than all the rest."""
    api: Api = app.extensions["flask-smorest"]["apis"][""]["ext_obj"]
    spec: dict[str, Any] = orjson.loads(orjson.dumps(api.spec.to_dict()))
    return spec


def document_of(app: Flask) -> dict[str, Any]:
    """Generate the document, with the answer of every worked example filled in by the application itself.

    Parameters
    ----------
    app : flask.Flask
        From `service.app.create_app`.

    Returns
    -------
    dict
        The OpenAPI 3.1 document.
    """
    spec = outline_of(app)
    client = app.test_client()
    client.environ_base[OWN_REQUEST] = "yes"
    for path, operations in spec["paths"].items():
        if path in OPEN_PATHS:
            operations["get"]["security"] = []
        content = operations.get("post", {}).get("requestBody", {}).get("content", {}).get("application/json", {})
        answers = {
            name: {
                "summary": example["summary"],
                "value": shortened(client.post(path, json=example["value"]).get_json()),
            }
            for name, example in content.get("examples", {}).items()
        }
        if name := IN_SPANISH.get(path):
            example = content["examples"][name]
            spanish = client.post(path, json=example["value"], headers={"Accept-Language": SPANISH}).get_json()
            summary = f"{example['summary']} In Spanish."
            answers[f"{name}-in-spanish"] = {"summary": summary, "value": shortened(spanish)}
        if answers:
            operations["post"]["responses"]["200"]["content"]["application/json"]["examples"] = answers
        lines = operations.get("post", {}).get("requestBody", {}).get("content", {}).get(LINES_TYPE, {})
        if lines:
            operations["post"]["responses"]["200"]["content"][LINES_TYPE]["examples"] = {
                name: {
                    "summary": example["summary"],
                    "value": _shortened_lines(client.post(path, data=example["value"], content_type=LINES_TYPE).data),
                }
                for name, example in lines["examples"].items()
            }
    add_examples(spec["components"]["responses"], client)
    order = ("openapi", "info", "servers", "security", "tags", "paths", "components")
    return {key: spec[key] for key in order}


def document_bytes(app: Flask) -> bytes:
    """The document as JSON, generated on first use and kept with the application."""
    kept: dict[str, bytes] = app.extensions.setdefault("document", {})
    if "bytes" not in kept:
        kept["bytes"] = orjson.dumps(document_of(app), option=orjson.OPT_INDENT_2) + b"\n"
    return kept["bytes"]


def write_document(app: Flask, folder: Path) -> None:
    """Write the committed copy: the document, and each worked example: request, answer and any drawing.

    Parameters
    ----------
    app : flask.Flask
    folder : pathlib.Path
        The repository's ``openapi`` folder; its ``examples`` folder is written anew.
    """
    (folder / "openapi.json").write_bytes(document_bytes(app))
    for stale in (folder / "examples").glob("*.*"):
        stale.unlink()
    client = app.test_client()
    client.environ_base[OWN_REQUEST] = "yes"
    (folder / "examples").mkdir(exist_ok=True)
    for path, operations in orjson.loads(document_bytes(app))["paths"].items():
        if "post" not in operations:
            continue
        operation = operations["post"]
        for name, example in operation["requestBody"]["content"].get(TABLE_TYPE, {}).get("examples", {}).items():
            stem = path.removeprefix("/v1/").replace("/", "-") + "." + name
            (folder / "examples" / f"{stem}.request.csv").write_bytes(example["value"].encode())
        content = operation["responses"]["200"]["content"]
        for part, media in (("request", operation["requestBody"]["content"]), ("answer", content)):
            for name, example in media.get(LINES_TYPE, {}).get("examples", {}).items():
                stem = path.removeprefix("/v1/").replace("/", "-") + "." + name
                (folder / "examples" / f"{stem}.{part}.ndjson").write_bytes(example["value"].encode())
        requests = operation["requestBody"]["content"]["application/json"]["examples"]
        answers = content["application/json"]["examples"]
        for name, example in requests.items():
            stem = path.removeprefix("/v1/").replace("/", "-") + "." + name
            for part, value in (("request", example["value"]), ("answer", answers[name]["value"])):
                text = orjson.dumps(value, option=orjson.OPT_INDENT_2) + b"\n"
                (folder / "examples" / f"{stem}.{part}.json").write_bytes(text)
            if DRAWING in content:
                drawing = client.post(path, json=example["value"], headers={"Accept": DRAWING})
                (folder / "examples" / f"{stem}.drawing.svg").write_bytes(drawing.data)
