"""What is left out of Flask makes no difference: the same requests to Flask itself are the judge."""

from typing import Any

import pytest
from flask import Flask, Response, after_this_request, request
from werkzeug.exceptions import NotFound

from service.routes.plain_flask import PlainFlask

REQUESTS: dict[str, tuple[str, str, dict[str, str]]] = {
    "a path": ("POST", "/plain", {}),
    "with a query": ("POST", "/plain?a=1", {}),
    "a placeholder": ("GET", "/named/one", {}),
    "no such path": ("GET", "/nothing", {}),
    "another method": ("GET", "/plain", {}),
    "a method in small letters": ("post", "/plain", {}),
    "no known method": ("BREW", "/plain", {}),
    "only the fields": ("HEAD", "/both", {}),
    "what is allowed": ("OPTIONS", "/both", {}),
    "a double slash before": ("POST", "//plain", {}),
    "a slash behind": ("POST", "/plain/", {}),
    "a double slash within": ("GET", "/named//one", {}),
    "an odd host": ("POST", "/plain", {"Host": "a b"}),
    "no host": ("POST", "/plain", {"Host": ""}),
    "a socket of the web": ("POST", "/plain", {"Connection": "Upgrade", "Upgrade": "websocket"}),
    "refused by the view": ("GET", "/refused", {}),
    "refused by a hook": ("POST", "/plain", {"Refuse": "before"}),
    "answered by a hook": ("POST", "/plain", {"Answer": "before"}),
    "a fault of the view": ("GET", "/broken", {}),
    "a fault of the hook after it": ("POST", "/plain", {"Break": "after"}),
    "a hook of the view's own": ("GET", "/marked", {}),
    "a pair": ("GET", "/pair", {}),
}


def application(kind: type[Flask]) -> tuple[Flask, list[str]]:
    """An application of views and hooks, and what has run of it."""
    app, ran = kind("judged", static_folder=None), []

    @app.before_request
    def _first() -> None:
        ran.append("first")
        if request.headers.get("Refuse"):
            raise NotFound

    @app.before_request
    def _second() -> str | None:
        ran.append("second")
        return request.headers.get("Answer")

    @app.after_request
    def _last(response: Response) -> Response:
        ran.append("last")
        return response

    @app.after_request
    def _next(response: Response) -> Response:
        ran.append(f"next {response.status_code}")
        if request.headers.get("Break"):
            raise ValueError("a fault")
        return response

    for name in ("one", "two"):

        @app.teardown_request
        def _end(error: BaseException | None, name: str = name) -> None:
            ran.append(f"end {name} of {request.endpoint} {type(error).__name__}")

    @app.post("/plain")
    def plain() -> str:
        return f"{request.path} {request.args.to_dict()} {request.url_rule}"

    @app.get("/named/<name>")
    def named(name: str) -> str:
        return name

    @app.route("/both", methods=["GET", "POST"])
    def both() -> str:
        return "both"

    @app.get("/refused")
    def refused() -> str:
        raise NotFound

    @app.get("/broken")
    def broken() -> str:
        raise ValueError("a fault")

    @app.get("/marked")
    def marked() -> str:
        @after_this_request
        def _mark(response: Response) -> Response:
            ran.append("marked")
            response.headers["Marked"] = "yes"
            return response

        return "marked"

    @app.get("/pair")
    def pair() -> tuple[dict[str, int], int]:
        return {"a": 1}, 201

    return app, ran


APPLICATIONS = [application(Flask), application(PlainFlask)]


@pytest.mark.parametrize("name", REQUESTS)
def test_everything_is_answered_as_flask_answers_it(name: str) -> None:
    method, path, headers = REQUESTS[name]
    answers: list[Any] = []
    for app, ran in APPLICATIONS:
        ran.clear()
        answer = app.test_client().open(path, method=method, headers=headers)
        answers.append((answer.status, sorted(answer.headers), answer.data, tuple(ran)))
    assert answers[0] == answers[1]
    assert answers[0][3]


def test_a_fault_is_raised_where_flask_raises_it() -> None:
    for app, _ in APPLICATIONS:
        app.testing = True
        try:
            with pytest.raises(ValueError, match="a fault"):
                app.test_client().get("/broken")
        finally:
            app.testing = False


def test_the_service_uses_nothing_that_is_left_out(app: Flask) -> None:
    assert isinstance(app, PlainFlask)
    hooks = (app.before_request_funcs, app.after_request_funcs, app.teardown_request_funcs)
    assert all(set(of_blueprint) <= {None} for of_blueprint in hooks)
    assert not any(app.url_value_preprocessors.values())
