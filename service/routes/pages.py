"""Pages for people: the API reference, from a packaged bundle, and a page for each problem type."""

import re
from base64 import b64encode
from hashlib import sha256
from html import escape
from importlib.resources import files

from flask import Response, current_app

from service.routes.blueprint import Blueprint
from service.routes.document import TITLE, document_bytes
from service.routes.problems import Problem
from service.schemas.machine_answers import OpenApiDocument
from service.tables.problems import PROBLEMS

blueprint = Blueprint("documents", __name__, description="The contract, for machines and for people.")

# the bundle's icons are data; nothing else may load, and nothing from elsewhere
_DOCS_POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; "
    "connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
)
_ASSETS = {
    "swagger-ui.css": "text/css",
    "swagger-ui-bundle.js": "text/javascript",
    "favicon-32x32.png": "image/png",
}

_DOCS_PAGE = f"""<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>{TITLE}: API reference</title>
<link rel="icon" href="/docs/assets/favicon-32x32.png">
<link rel="stylesheet" href="/docs/assets/swagger-ui.css">
<link rel="stylesheet" href="/docs/assets/page.css">
</head>
<body>
<noscript>This page needs JavaScript; the document itself is at <a href="/openapi.json">/openapi.json</a>.</noscript>
<main id="reference"></main>
<script src="/docs/assets/swagger-ui-bundle.js"></script>
<script src="/docs/assets/start.js"></script>
</body>
</html>
"""

_START_SCRIPT = """\
window.addEventListener("load", function () {
  SwaggerUIBundle({
    url: "/openapi.json",
    dom_id: "#reference",
    deepLinking: true,
    tryItOutEnabled: true,
    defaultModelsExpandDepth: 0,
    validatorUrl: null
  });
});
"""

# there is one server and no licence page elsewhere; on a phone, code scrolls rather than breaking inside words
_DOCS_STYLE = """\
body { margin: 0; }
.swagger-ui .scheme-container, .swagger-ui .info__license { display: none; }
@media (max-width: 600px) {
  .swagger-ui .wrapper { padding: 0 8px; }
  .swagger-ui .info { margin: 24px 0; }
  .swagger-ui .opblock .opblock-section-header { flex-wrap: wrap; }
  .swagger-ui pre.microlight, .swagger-ui pre.microlight * { white-space: pre !important; }
  .swagger-ui pre.microlight { overflow-x: auto !important; }
  .swagger-ui table.responses-table, .swagger-ui table.responses-table > tbody,
  .swagger-ui table.responses-table > tbody > tr, .swagger-ui table.responses-table > tbody > tr > td {
    display: block; width: auto; max-width: 100%; padding-left: 0;
  }
  .swagger-ui table.responses-table > thead { display: none; }
}
"""

_STYLE = (
    "body{font:1rem/1.5 system-ui,sans-serif;max-width:42rem;margin:2rem auto;padding:0 1rem;color:#1b1b1b;"
    "background:#fff}h1{line-height:1.2}code{background:#eee;padding:.1em .3em;overflow-wrap:anywhere}"
    "dt{font-weight:600;margin-top:1rem}dd{margin:0}ul{padding-left:1.2rem}li{padding:.25rem 0}"
)

_STYLE_HASH = b64encode(sha256(_STYLE.encode()).digest()).decode()
_PAGE_POLICY = (
    f"default-src 'none'; style-src 'sha256-{_STYLE_HASH}'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
)


def _prose(text: str) -> str:
    """Escape a sentence, and show what stands in backticks as code."""
    return re.sub("`([^`]+)`", r"<code>\1</code>", escape(text))


@blueprint.route("/openapi.json", methods=["GET"])
@blueprint.page("application/json", "The OpenAPI 3.1 document.", payload=OpenApiDocument)
def read_document() -> Response:
    """This contract, as an OpenAPI 3.1 document.

    Generate a client from it, or feed it to a fuzzer: every bound stands in it, per unit.
    """
    response = Response(document_bytes(current_app), mimetype="application/json")
    response.headers["Cache-Control"] = "public, max-age=300"
    return response


@blueprint.route("/docs", methods=["GET"])
@blueprint.page("text/html", "The API reference with worked examples and try-it.")
def read_docs() -> Response:
    """The API reference, with worked examples and try-it.

    It needs no internet: every file comes from this service.
    """
    response = Response(_DOCS_PAGE, mimetype="text/html")
    response.headers["Content-Security-Policy"] = _DOCS_POLICY
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
    row = PROBLEMS[slug]
    links = "".join(
        f'<li><a href="/problems/{other.slug}">{escape(other.title)}</a> ({other.status})</li>'
        for other in PROBLEMS.values()
        if other.slug != slug
    )
    response = Response(
        f'<!doctype html><html lang="en"><head><meta charset="utf-8">'
        f'<meta name="viewport" content="width=device-width, initial-scale=1">'
        f"<title>{escape(row.title)}</title><style>{_STYLE}</style></head><body><main><h1>{escape(row.title)}</h1>"
        f"<dl><dt>Problem type</dt><dd><code>/problems/{row.slug}</code></dd><dt>HTTP status</dt><dd>{row.status}</dd>"
        f"<dt>What happened</dt><dd>{_prose(row.meaning)}</dd><dt>What to do</dt><dd>{_prose(row.remedy)}</dd></dl>"
        f'<h2>Other problem types</h2><ul>{links}</ul><p><a href="/docs">API reference</a></p></main></body></html>',
        mimetype="text/html",
    )
    response.headers["Content-Security-Policy"] = _PAGE_POLICY
    return response


def read_asset(name: str) -> Response:
    """Serve one file of the packaged bundle; a name outside the closed list is a 404."""
    if name == "start.js":
        return Response(_START_SCRIPT, mimetype="text/javascript")
    if name == "page.css":
        return Response(_DOCS_STYLE, mimetype="text/css")
    if name not in _ASSETS:
        raise Problem("unknown-path", detail="There is no such file.")
    content = files("flask_swagger_ui").joinpath("dist", name).read_bytes()
    response = Response(content, mimetype=_ASSETS[name])
    response.headers["Cache-Control"] = "public, max-age=86400"
    return response
