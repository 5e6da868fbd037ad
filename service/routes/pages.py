"""The contract, the API reference from a packaged bundle, the texts beside it, and a page for each problem type."""

from functools import cache
from importlib.resources import files

from flask import Response, current_app

from service.pages.findings import write_findings
from service.pages.problem import write_problem
from service.pages.reference import reference_policy, write_reference
from service.pages.shell import FOLDER, PAGES, TEXTS, policy
from service.routes.blueprint import Blueprint
from service.routes.document import document_bytes
from service.routes.problems import Problem
from service.schemas.machine_answers import OpenApiDocument
from service.tables.problems import PROBLEMS

blueprint = Blueprint("documents", __name__, description="The contract, for machines and for people.")

_ASSETS = {
    "swagger-ui.css": "text/css",
    "swagger-ui-bundle.js": "text/javascript",
    "favicon-32x32.png": "image/png",
}
_OWN_ASSETS = {"reference.css": "text/css", "reference.js": "text/javascript"}

_CACHING = "public, max-age=300"


@cache
def _text(page: str) -> str:
    from service.pages.texts import write_text  # here: a service that is asked for no text reads no Markdown

    return write_text(page) if page in TEXTS else write_findings()


def _page(content: str) -> Response:
    response = Response(content, mimetype="text/html")
    response.headers["Content-Security-Policy"] = policy()
    return response


@blueprint.route("/openapi.json", methods=["GET"])
@blueprint.page("application/json", "The OpenAPI 3.1 document.", payload=OpenApiDocument)
def read_document() -> Response:
    """This contract, as an OpenAPI 3.1 document.

    Generate a client from it, or feed it to a fuzzer: every bound stands in it, per unit.
    """
    response = Response(document_bytes(current_app), mimetype="application/json")
    response.headers["Cache-Control"] = _CACHING
    return response


@blueprint.route("/docs", methods=["GET"])
@blueprint.page("text/html", "The API reference with worked examples and try-it.")
def read_docs() -> Response:
    """The API reference, with worked examples and try-it.

    It needs no internet: every file comes from this service.
    """
    response = Response(write_reference(keys=bool(current_app.extensions["keys"])), mimetype="text/html")
    response.headers["Content-Security-Policy"] = reference_policy()
    return response


@blueprint.route(
    "/docs/<page>",
    methods=["GET"],
    parameters=[
        {
            "in": "path",
            "name": "page",
            "required": True,
            "description": "`guide`: ten minutes with the service. `book`: a command for each operation. `mistakes`: "
            "the commonest, and what the service says to each. `findings`: every code, explained.",
            "schema": {"$ref": "#/components/schemas/DocsPage"},
        }
    ],
)
@blueprint.page("text/html", "The page.", statuses=(404, 406))
def read_page(page: str) -> Response:
    """Guide, curl book, the ten commonest mistakes, all findings.

    For people; every command on these pages is shown with what it printed. Nothing on them comes from elsewhere.
    """
    if page not in PAGES:
        raise Problem("unknown-path", detail=f"There is no such page; known: {', '.join(PAGES)}.")
    response = _page(_text(page))
    response.headers["Cache-Control"] = _CACHING
    return response


@blueprint.route(
    "/problems/<slug>",
    methods=["GET"],
    parameters=[
        {
            "in": "path",
            "name": "slug",
            "required": True,
            "description": "Last segment of the `type` of a problem.",
            "schema": {"$ref": "#/components/schemas/ProblemSlug"},
        }
    ],
)
@blueprint.page("text/html", "What the problem type means and what to do about it.", statuses=(404, 406))
def read_problem(slug: str) -> Response:
    """What a problem type means, and what the caller does about it.

    The `type` of every problem answer is the address of such a page.
    """
    if slug not in PROBLEMS:
        raise Problem("unknown-path", detail=f"There is no such problem type; known: {', '.join(PROBLEMS)}.")
    return _page(write_problem(slug))


def read_asset(name: str) -> Response:
    """Serve one file of the packaged bundle; a name outside the closed list is a 404."""
    if name in _OWN_ASSETS:
        return Response(FOLDER.joinpath(name).read_bytes(), mimetype=_OWN_ASSETS[name])
    if name not in _ASSETS:
        raise Problem("unknown-path", detail="There is no such file.")
    response = Response(files("flask_swagger_ui").joinpath("dist", name).read_bytes(), mimetype=_ASSETS[name])
    response.headers["Cache-Control"] = "public, max-age=86400"
    return response
