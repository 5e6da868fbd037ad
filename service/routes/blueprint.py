"""The decorators a view is made of.

flask-smorest documents a view from its decorators and docstring; the reading and the writing
are ours: strict, one schema instance per view, one pass from results to bytes.
"""

import functools
import importlib
from collections.abc import Callable, Iterator, Mapping
from http import HTTPStatus
from types import MappingProxyType
from typing import Any, cast

import flask_smorest
import orjson
from flask import Request, Response, g, request, stream_with_context

from service.errors import Contradiction
from service.routes.deprecation import Deprecation
from service.routes.lines import answers_in_lines, read_lines, write_lines
from service.routes.negotiation import PlainAnswer, chosen, language_of
from service.routes.problems import Problem
from service.routes.reading import TABLE_TYPE, query_faults, read, unit_system
from service.schemas.envelope import Envelope
from service.schemas.fields import Choice, Text
from service.schemas.line_text import LINES_TYPE, LineText
from service.schemas.payload import Payload
from service.schemas.table_text import Table
from service.schemas.writing import compile_answer_writer, compile_writer, fill
from service.tables.findings.catalogue import FINDINGS
from service.tables.languages import ENGLISH, said
from service.tables.problems import PROBLEMS
from service.units import SYSTEMS

TABLE_CACHING = "public, max-age=3600"
"""A table changes with a release; an hour keeps a caller close enough."""

BODY_LIMIT = 256 * 1024
"""Most bytes of a body; `tests/contract` proves that every body the schema allows is smaller."""

PAGE_POLICY = (
    "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
)
"""Of a rendering in HTML: its own style sheet, and nothing else from anywhere."""

View = Callable[..., Any]

_TEXT = {"type": "string"}

_POST_PROBLEMS = (400, 401, 406, 413, 415, 422, 429, 503)
_GET_PROBLEMS = (400, 401, 406, 429)


class UnitsQuery(Payload):
    """The query of an operation that answers with quantities."""

    units = Choice(SYSTEMS, description="Unit system of the answer; `us` when left out.")


def _parameters(query: type[Payload] = UnitsQuery) -> list[Any]:
    """What every calculation and table takes beside a body, for the document."""
    return [{"in": "query", "required": False, "schema": query()}, "AcceptLanguage"]


def _document(view: View, part: str, **entries: Any) -> None:
    """Add to what flask-smorest keeps on a view for the document."""
    documented: dict[str, Any] = view.__dict__.setdefault("_apidoc", {})
    documented.setdefault(part, {}).update(entries)


class Blueprint(flask_smorest.Blueprint):  # type: ignore[misc]
    """A subject's operations.

    ``route`` sets the operation id from the view's name, ``arguments`` reads the body, ``response``
    writes what the view returns, in the unit system of the query.
    """

    def route(self, rule: str, *, deprecated: Deprecation | None = None, **options: Any) -> Callable[[View], View]:
        """Register a view; its name is the operation id. ``deprecated`` is told by every answer of it."""
        register = super().route(rule, **options)

        def decorator(view: View) -> View:
            view = deprecated.of(view) if deprecated else view
            view.__dict__.setdefault("_apidoc", {}).setdefault("manual_doc", {})["operationId"] = view.__name__
            registered: View = register(view)
            return registered

        return decorator

    def arguments(
        self,
        payload: type[Payload],
        *,
        body_limit: int = BODY_LIMIT,
        table: Table | None = None,
        lines: LineText | None = None,
    ) -> Callable[[View], View]:
        """Read the JSON body through ``payload`` and pass what it loads to the view.

        Parameters
        ----------
        payload : type of Payload
            Request schema; its ``examples`` go into the document.
        body_limit : int
            Most bytes of the body.
        table : Table or None
            How the same request is written as CSV, where it may be.
        lines : LineText or None
            How it is written one object a line, where it may be.
        """
        schema = payload()
        accepted = ("application/json", LINES_TYPE) if lines else ("application/json",)
        columns = table.columns if table else None

        def decorator(view: View) -> View:
            @functools.wraps(view)
            def reading() -> Any:
                received: Request = request._get_current_object()  # type: ignore[attr-defined]
                media_type = received.environ["service.media_type"]
                if lines and received.mimetype == LINES_TYPE:
                    each = _element(schema, lines.member)
                    body = {lines.member: read_lines(received, each, lines, media_type != LINES_TYPE)}
                else:
                    body = read(received, schema, body_limit, columns, accepted)
                if media_type != "application/json":
                    g.body = body  # for a rendering
                return view(body)

            body = {"in": "json", "required": True, "schema": schema, "description": payload.__doc__}
            if payload.examples:
                body["examples"] = {name: dict(example) for name, example in payload.examples.items()}
            query = {"in": "query", "required": False, "schema": UnitsQuery()}
            _document(
                reading, "arguments", parameters=[query, "AcceptLanguage", body], responses=_problems(_POST_PROBLEMS)
            )
            if table:
                _document(reading, "manual_doc", requestBody={"content": {TABLE_TYPE: table.media_type()}})
            if lines:
                _document(reading, "manual_doc", requestBody={"content": {LINES_TYPE: lines.request_type()}})
            return reading

        return decorator

    def response(
        self,
        status: int,
        payload: type[Payload],
        *,
        envelope: bool = True,
        renderings: Mapping[str, str] = MappingProxyType({}),
        lines: LineText | None = None,
    ) -> Callable[[View], View]:
        """Write what the view returns, as JSON or as the caller prefers it.

        Parameters
        ----------
        status : int
            HTTP status of the answer.
        payload : type of Payload
            With ``envelope``, an envelope class of `answer_of` and the view returns an `Answer`;
            without, any schema and the view returns an object with its members as attributes.
        renderings : mapping
            Other media types of the same answer, each with the function that makes it, as
            ``"package.module:function"``: imported when it is first asked for. It gets the arguments of the
            view, the `Answer`, the envelope as JSON has it, the unit system and the language; it returns text or bytes.
        lines : LineText or None
            How the rows of the answer are written one a line, where they may be.
        """
        schema = payload()
        offered = ("application/json", *renderings)

        @functools.cache
        def writer(system: str, language: str) -> Callable[[Any], Any]:
            if envelope:
                return compile_answer_writer(cast(Envelope, schema), system, language)
            return compile_writer(schema, system, language)

        @functools.cache
        def row_writer(system: str, language: str) -> Callable[[Any], Any]:
            return compile_writer(_element(schema, "rows"), system, language)

        for system in SYSTEMS:  # before the first request, so that all workers share them
            writer(system, ENGLISH)
            if lines:
                row_writer(system, ENGLISH)
        vary = "Accept, Accept-Language" if renderings or lines else "Accept-Language"

        def decorator(view: View) -> View:
            @functools.wraps(view)
            def writing() -> Response:
                received: Request = request._get_current_object()  # type: ignore[attr-defined]
                media_type = chosen(received, answers_in_lines(received) if lines else offered)
                received.environ["service.media_type"] = media_type
                system, language = unit_system(received), language_of(received)
                try:
                    answer = view()
                except Contradiction as contradiction:
                    raise _contradiction(contradiction, system, language) from contradiction
                content: str | bytes | Iterator[bytes]
                if media_type == LINES_TYPE:
                    content = stream_with_context(write_lines(answer.rows, row_writer(system, language)))
                elif media_type == "application/json" and lines:
                    # row by row: a million small objects alive at once would keep the garbage collector busy
                    write = row_writer(system, language)
                    content = orjson.dumps({"rows": [orjson.Fragment(orjson.dumps(write(row))) for row in answer.rows]})
                elif media_type == "application/json":
                    content = orjson.dumps(writer(system, language)(answer))
                    if envelope:
                        fields = {"Content-Type": media_type, "Content-Language": language, "Vary": vary}
                        return PlainAnswer(content, status, fields)
                else:
                    written = writer(system, language)(answer)
                    content = _rendering(renderings[media_type])(g.body, answer, written, system, language)
                response = Response(content, status=status, mimetype=media_type)
                response.headers["Content-Language"] = language
                response.headers["Vary"] = vary
                if media_type == "text/html":
                    response.headers["Content-Security-Policy"] = PAGE_POLICY
                return response

            phrase = HTTPStatus(status).phrase
            stated = {"description": phrase, "headers": {"Content-Language": "ContentLanguage"}}
            described = [{"schema": schema, "content_type": "application/json", **stated}]
            for media_type in renderings:
                described.append({"schema": _TEXT, "content_type": media_type, **stated})
            if lines:
                described.append({**lines.row_type(), "content_type": LINES_TYPE, **stated})
            # flask-smorest takes them as decorators stand, the last first; generators of clients take the first
            _document(writing, "response", responses={status: described[::-1]})
            writing.__dict__["_apidoc"]["success_status_codes"] = [status]
            return writing

        return decorator

    def table(self, payload: type[Payload], query: type[UnitsQuery] = UnitsQuery) -> Callable[[View], View]:
        """Write a reference table: a GET that answers the same until the next version, with an entity tag.

        Parameters
        ----------
        payload : type of Payload
            Schema of what the view returns.
        query : type of UnitsQuery
            Parameters of the query; those beside ``units`` are texts.
        """
        write = self.response(200, payload, envelope=False)
        texts = {name: field.longest for name, field in query().fields.items() if isinstance(field, Text)}

        def decorator(view: View) -> View:
            @functools.wraps(view)
            def checking() -> Any:
                if request.query_string and (faults := query_faults(request, texts)):
                    raise Problem("schema-mismatch", detail="The query has a fault.", errors=faults)
                return view()

            written = write(checking)

            @functools.wraps(written)
            def tagging() -> Response:
                response: Response = written()
                response.add_etag()
                response.headers["Cache-Control"] = TABLE_CACHING
                response.make_conditional(request)
                return response

            responses = {304: {"description": "Not changed since the entity tag sent."}} | _problems(_GET_PROBLEMS)
            _document(tagging, "arguments", parameters=_parameters(query), responses=responses)
            return tagging

        return decorator

    def page(
        self,
        media_type: str,
        description: str,
        *,
        payload: type[Payload] | None = None,
        statuses: tuple[int, ...] = (406,),
    ) -> Callable[[View], View]:
        """Answer what the view returns, text or bytes, as ``media_type``.

        Parameters
        ----------
        media_type : str
        description : str
            Of the answer, for the document.
        payload : type of Payload or None
            What the answer is, where it is JSON; a text where it is not.
        statuses : tuple of int
            Problems the operation may answer with.
        """

        def decorator(view: View) -> View:
            @functools.wraps(view)
            def paging(**path: str) -> Response:
                chosen(request, (media_type,))
                answer = view(**path)
                return answer if isinstance(answer, Response) else Response(answer, mimetype=media_type)

            content = {"description": description, "content": {media_type: {"schema": payload or _TEXT}}}
            manual = paging.__dict__.setdefault("_apidoc", {}).setdefault("manual_doc", {})
            manual["responses"] = {"200": content} | {str(status): name for status, name in _problems(statuses).items()}
            return paging

        return decorator


def _element(schema: Payload, member: str) -> Payload:
    """The schema of the elements of an array."""
    element: Payload = cast(Any, schema.fields[member]).inner.schema
    return element


@functools.cache
def _rendering(name: str) -> Callable[..., str | bytes]:
    """Import the function that makes a rendering."""
    module, _, function = name.partition(":")
    rendering: Callable[..., str | bytes] = getattr(importlib.import_module(module), function)
    return rendering


def _problems(statuses: tuple[int, ...]) -> dict[int, str]:
    return {status: HTTPStatus(status).name for status in statuses}


def _contradiction(contradiction: Contradiction, system: str, language: str) -> Problem:
    row = FINDINGS[contradiction.code]
    detail = " ".join(fill(text, contradiction.values, system, language) for text in (row.message, row.remedy))
    return Problem(
        "contradiction",
        detail=said(PROBLEMS["contradiction"].title, language) + ".",
        errors=[{"pointer": contradiction.pointer, "code": contradiction.code, "detail": detail}],
        headers={"Content-Language": language, "Vary": "Accept-Language"},
        language=language,
    )
