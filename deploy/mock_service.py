"""A mock of the service for integrators' test suites: every calculation has fixed answers, the committed examples.

It is the service with its calculations taken out, so paths, methods, tables, pages and problems are the real ones. What
is no example gets no answer made up for it, but a 501 that names the examples. ``deploy/mock`` starts it, on loopback
and nowhere else.

References
----------
.. [1] RFC 7240, Prefer Header for HTTP: `Prefer: example=NAME` and `Prefer: code=422`, as other mocks spell them.
.. [2] RFC 9457, Problem Details for HTTP APIs, 4.2.1 (about:blank).
"""

import argparse
import functools
import json
import sys
from pathlib import Path
from typing import Any

from werkzeug.http import parse_dict_header
from werkzeug.serving import make_server

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

from flask import Flask, Response, request  # noqa: E402

from service.app import create_app  # noqa: E402
from service.routes.negotiation import chosen, language_of  # noqa: E402
from service.routes.problems import MEDIA_TYPE, Problem  # noqa: E402
from service.settings import Settings  # noqa: E402
from service.tables.problems import PROBLEMS  # noqa: E402

HOST = "127.0.0.1"
FIELD = "Mock"
"""Name of the header field that every answer has."""

IN_SPANISH = "-in-spanish"
"""Ends the name of the answer an example has in Spanish, where it is shown."""

JSON, LINES, DRAWING = "application/json", "application/x-ndjson", "image/svg+xml"

# the first of a status, but a calculation's 503 is that of a busy service
SLUG_OF_STATUS = {row.status: row.slug for row in reversed(tuple(PROBLEMS.values()))} | {503: "overloaded"}
HEADERS_OF_STATUS = {401: {"WWW-Authenticate": "Bearer"}, 429: {"Retry-After": "1"}, 503: {"Retry-After": "1"}}


class Examples:
    """The worked examples of one operation.

    Parameters
    ----------
    path : str
        The operation's path.
    operation : dict
        Its POST in the OpenAPI document.
    folder : pathlib.Path
        Where the drawings are.
    """

    def __init__(self, path: str, operation: dict[str, Any], folder: Path) -> None:
        answers = operation["responses"]["200"]["content"]
        self.statuses = {int(status) for status in operation["responses"] if int(status) >= 400}
        self.offered = list(answers)
        self.accepted = list(operation["requestBody"]["content"])
        self._requests: dict[tuple[str, str], str] = {}
        self._answers: dict[tuple[str, str], str] = {}
        stem = path.removeprefix("/v1/").replace("/", "-")
        for media_type, content in operation["requestBody"]["content"].items():
            for name, example in content["examples"].items():
                sent = json.dumps(example["value"]) if media_type == JSON else example["value"]
                self._requests.setdefault((media_type, compared(media_type, sent)), name)
        for media_type, content in answers.items():
            for name, example in content.get("examples", {}).items():
                value = example["value"]
                self._answers[name, media_type] = json.dumps(value) if media_type == JSON else value
        for name in {name for name, _ in self._answers}:
            drawing = folder / f"{stem}.{name}.drawing.svg"
            if drawing.exists():
                self._answers[name, DRAWING] = drawing.read_text()
        self.names = list(dict.fromkeys(name for name, _ in self._answers))

    def name_of(self, media_type: str, body: str) -> str | None:
        """Name of the example whose request equals ``body``, or None."""
        return self._requests.get((media_type, compared(media_type, body)))

    def answer(self, name: str, media_type: str) -> str | None:
        """The committed answer of an example, or None where there is none of this media type."""
        return self._answers.get((name, media_type))


def compared(media_type: str, body: str) -> str:
    """A body as it is compared: JSON whatever its blanks and the order of its members, text whatever ends its lines."""
    if media_type == JSON:
        return json.dumps(json.loads(body, parse_int=float), sort_keys=True)
    return "\n".join(body.splitlines())


def answer_example(examples: Examples) -> Response:
    """Answer a calculation: with the example that is preferred, else with the one that was sent."""
    preferences = parse_dict_header(", ".join(request.headers.getlist("Prefer")))
    code, name = preferences.get("code"), preferences.get("example")
    if code and code.isdigit() and int(code) in examples.statuses:
        status = int(code)
        raise Problem(
            SLUG_OF_STATUS[status],
            detail=f"The mock was asked for this by Prefer: code={code}.",
            headers={**HEADERS_OF_STATUS.get(status, {}), "Preference-Applied": f"code={code}"},
        )
    if code and code != "200":
        return unknown(examples, f"This operation does not answer with {code}.")
    if request.mimetype not in examples.accepted:
        meaning = f"This operation takes {' or '.join(examples.accepted)}."
        raise Problem("unsupported-media-type", detail=meaning)
    media_type = chosen(request, answered_with(examples))
    if request.args.get("units", "us") != "us":
        return unknown(examples, "The examples are answered in US units.")
    if name and name not in examples.names:
        return unknown(examples, f"There is no example of the name {name}.")
    try:
        found = name or examples.name_of(request.mimetype, request.get_data().decode())
    except (ValueError, RecursionError) as fault:
        raise Problem("malformed-body", detail=f"The body could not be read: {fault}.") from fault
    if not found:
        return unknown(examples, "The body is none of the examples.")
    if not name and language_of(request) == "es" and found + IN_SPANISH in examples.names:
        found += IN_SPANISH
    content = examples.answer(found, media_type)
    if content is None:
        return unknown(examples, f"The example {found} has no answer as {media_type}.")
    language = "es" if found.endswith(IN_SPANISH) else "en"
    answer = Response(content, mimetype=media_type, headers={"Content-Language": language})
    if name:
        answer.headers["Preference-Applied"] = f"example={name}"
    return answer


def answered_with(examples: Examples) -> list[str]:
    """Media types that may be chosen from, the default first: lines are answered in lines."""
    first = LINES if request.mimetype == LINES else JSON
    return sorted(examples.offered, key=lambda media_type: media_type != first)


def unknown(examples: Examples, why: str) -> Response:
    """Say that the mock has no such answer, and what it has. The service itself never answers 501 to a calculation."""
    detail = (
        f"{why} A mock knows only the examples: {', '.join(examples.names)}. Send one of their requests, or choose an "
        "answer by Prefer: example=NAME, or a problem by Prefer: code=422. The service itself answers any request."
    )
    document = {"type": "about:blank", "title": "Not Implemented", "status": 501, "detail": detail}
    document |= {"instance": request.path, "errors": [], "examples": examples.names}
    return Response(json.dumps(document), status=501, mimetype=MEDIA_TYPE)


def create_mock(folder: Path = ROOT / "openapi") -> Flask:
    """The service, with examples in the place of its calculations.

    Parameters
    ----------
    folder : pathlib.Path
        Holds ``openapi.json`` and ``examples``.

    Returns
    -------
    flask.Flask
    """
    app = create_app(Settings(log_level="error"))
    written = (folder / "openapi.json").read_bytes()
    document = json.loads(written)
    app.extensions["document"] = {"bytes": written}  # else it would be made of the mock's own answers
    for rule in app.url_map.iter_rules():
        operation = document["paths"].get(rule.rule, {}).get("post")
        if operation:
            examples = Examples(rule.rule, operation, folder / "examples")
            app.view_functions[rule.endpoint] = functools.partial(answer_example, examples)

    @app.after_request
    def _mark(response: Response) -> Response:
        response.headers[FIELD] = "true"
        return response

    return app


def main() -> None:
    """Serve the mock until Ctrl-C."""
    parser = argparse.ArgumentParser(
        prog="deploy/mock",
        description="A mock of the condensate drainage service, on this machine only (127.0.0.1): fixed answers, those "
        "of the worked examples in openapi/. Every answer has the header field Mock: true.",
        epilog="A request that equals an example gets its answer. Prefer: example=NAME chooses one for any body, "
        "Prefer: code=422 a problem.",
    )
    parser.add_argument("--port", type=int, default=8090, help="port on 127.0.0.1 (default: %(default)s)")
    port = parser.parse_args().port
    server = make_server(HOST, port, create_mock(), threaded=True)
    print(f"A mock of the service answers at http://{HOST}:{server.server_port} until Ctrl-C.", flush=True)
    try:
        server.serve_forever()
    except KeyboardInterrupt:
        print("Stopped.")


if __name__ == "__main__":
    main()
