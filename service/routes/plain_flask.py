"""Flask without what this service has no use for, and would ask itself several times a request."""

from collections.abc import Callable
from functools import cached_property
from typing import Any

from flask import Flask, Request, Response, request
from flask.globals import request_ctx
from flask.sessions import NullSession, SessionInterface
from werkzeug.routing import MapAdapter, Rule

_NO_SESSION = NullSession()


class Sessionless(SessionInterface):
    """Nothing is kept of a caller, so that no cookie is read or written."""

    def open_session(self, app: Flask, request: Request) -> NullSession:
        """The session of every request."""
        return _NO_SESSION


class FilelessRequest(Request):
    """A request in which no file is uploaded."""

    def close(self) -> None:
        """Nothing: there is no file to close."""


class PlainPath(MapAdapter):
    """Where a method and a path without placeholders lead: to a rule that need not be searched for.

    Parameters
    ----------
    rule : werkzeug.routing.Rule
    method : str
    """

    def __init__(self, rule: Rule, method: str) -> None:
        super().__init__(rule.map, "", "/", "", "http", rule.rule, method)
        self._rule = rule

    def match(self, *_: Any, **_options: Any) -> Any:
        """The rule, and the values in the path: none."""
        return self._rule, {}


class PlainFlask(Flask):
    """An application without sessions, coroutines, signals of requests, and hooks of single blueprints.

    Its own hooks run as Flask's do: those before a request in their order, the others in the opposite one.
    """

    session_interface = Sessionless()
    request_class = FilelessRequest

    @cached_property
    def _plain_paths(self) -> dict[tuple[str, str], PlainPath]:
        return {
            (method, rule.rule): PlainPath(rule, method)
            for rule in self.url_map.iter_rules()
            for method in rule.methods or ()
            if not rule.arguments and method != "OPTIONS"  # which asks the whole map what is allowed
        }

    def create_url_adapter(self, request: Request | None) -> MapAdapter | None:
        """What finds the rule of a request."""
        if request is None:
            return None
        environ = request.environ
        plain = self._plain_paths.get((environ["REQUEST_METHOD"], environ.get("PATH_INFO", "")))
        return super().create_url_adapter(request) if plain is None or "HTTP_UPGRADE" in environ else plain

    def full_dispatch_request(self) -> Response:
        """Answer a request from the first hook to the last."""
        self._got_first_request = True
        try:
            answer = self.preprocess_request()
            if answer is None:
                answer = self.dispatch_request()
        except Exception as error:
            answer = self.handle_user_exception(error)
        return self.process_response(self.make_response(answer))

    def preprocess_request(self) -> Any:
        """Run the hooks before a request until one answers."""
        for hook in self.before_request_funcs.get(None, ()):
            answer = hook()
            if answer is not None:
                return answer
        return None

    def dispatch_request(self) -> Any:
        """Call the view."""
        received: Any = request._get_current_object()  # type: ignore[attr-defined]
        if received.routing_exception is not None or received.method == "OPTIONS":
            return super().dispatch_request()
        return self.view_functions[received.url_rule.endpoint](**received.view_args)

    def process_response(self, response: Response) -> Response:
        """Run the hooks after a request, the view's own first."""
        for hook in request_ctx._after_request_functions:
            response = hook(response)  # type: ignore[assignment] # no coroutine
        for hook in reversed(self.after_request_funcs.get(None, ())):
            response = hook(response)
        return response

    def do_teardown_request(self, exc: BaseException | None = None) -> None:
        """Run the hooks at the end of a request."""
        for hook in reversed(self.teardown_request_funcs.get(None, ())):
            hook(exc)

    def ensure_sync(self, func: Callable[..., Any]) -> Callable[..., Any]:
        """A view or hook as it is: none is a coroutine."""
        return func
