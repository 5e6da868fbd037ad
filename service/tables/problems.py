"""The problem types the service answers with, and what a caller does about each."""

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True, slots=True)
class ProblemRow:
    """One problem type.

    Parameters
    ----------
    slug : str
        Last segment of its URI reference ``/problems/{slug}``.
    status : int
        HTTP status it comes with.
    title : str
        Short name, the same in every occurrence.
    meaning : str
        What happened, for a person.
    remedy : str
        What the caller does about it.
    """

    slug: str
    status: int
    title: str
    meaning: str
    remedy: str


_ROWS = (
    ProblemRow(
        slug="schema-mismatch",
        status=400,
        title="The request does not match the schema",
        meaning="A member is missing, unknown, of the wrong type or outside its allowed range.",
        remedy="Read `errors`: each entry points at a member (an RFC 6901 pointer), says what was received and what is "
        "allowed. Every fault is listed at once. The ranges are in the OpenAPI document, per unit.",
    ),
    ProblemRow(
        slug="malformed-body",
        status=400,
        title="The body is not acceptable JSON or CSV",
        meaning="The body is not one JSON object in UTF-8: a syntax error, a member standing twice, NaN or Infinity, a "
        "number too large, half of a surrogate pair, or nesting too deep. As "
        "CSV, where an operation takes it: no settings, empty line, header line and rows.",
        remedy="Correct the body. `detail` says what was found and, for a syntax error, where.",
    ),
    ProblemRow(
        slug="bad-request",
        status=400,
        title="The request could not be read",
        meaning="The HTTP request itself could not be read.",
        remedy="Check the request line, the header fields and the length of the body.",
    ),
    ProblemRow(
        slug="key-required",
        status=401,
        title="A key is needed",
        meaning="This service was started with keys, and the request shows none that opens it.",
        remedy="Send `Authorization: Bearer` and your key. Whoever runs the service gives keys out and knows whether "
        "yours was replaced.",
    ),
    ProblemRow(
        slug="unknown-path",
        status=404,
        title="There is nothing at this path",
        meaning="No operation and no page of the service has this path.",
        remedy="Check the path against the OpenAPI document at `/openapi.json` or the page at `/docs`.",
    ),
    ProblemRow(
        slug="method-not-allowed",
        status=405,
        title="The method is not allowed here",
        meaning="This path exists, but not with this method.",
        remedy="Use a method named in the Allow header field. Calculations are POST, reference tables are GET.",
    ),
    ProblemRow(
        slug="not-acceptable",
        status=406,
        title="None of the accepted media types is offered",
        meaning="The Accept header field leaves out every media type this path can answer with.",
        remedy="Send `Accept: application/json`, or leave the field out.",
    ),
    ProblemRow(
        slug="body-too-large",
        status=413,
        title="The body is too large",
        meaning="The body is larger than this operation takes, or has more values. Every body the schema allows fits.",
        remedy="Send less: split a batch into several requests.",
    ),
    ProblemRow(
        slug="address-too-long",
        status=414,
        title="The request line is too long",
        meaning="Path and query together are longer than the server reads.",
        remedy="Send the path alone; everything a calculation needs goes into the body.",
    ),
    ProblemRow(
        slug="unsupported-media-type",
        status=415,
        title="The media type of the body is not supported",
        meaning="The operation reads uncompressed JSON only, or CSV or JSON lines too where its description says so.",
        remedy="Send `Content-Type: application/json`, UTF-8, without Content-Encoding; the Accept field of the "
        "answer lists what is read.",
    ),
    ProblemRow(
        slug="contradiction",
        status=422,
        title="The facts contradict each other",
        meaning="Each member is in range, but together they cannot be true of one installation: a wet bulb above the "
        "dry bulb, for instance.",
        remedy="Check the readings `errors` points at. In an assessment the same contradiction is a finding, and the "
        "rest is answered.",
    ),
    ProblemRow(
        slug="too-many-requests",
        status=429,
        title="Too many requests",
        meaning="You have asked more often than the service allows one caller.",
        remedy="Wait for the seconds in the Retry-After field. The RateLimit fields of every answer tell what is left; "
        "many units fit into one batch.",
    ),
    ProblemRow(
        slug="header-too-large",
        status=431,
        title="The header fields are too large",
        meaning="There are more header fields, or longer ones, than the server reads.",
        remedy="Send fewer and shorter header fields; look for cookies or tokens that do not belong here.",
    ),
    ProblemRow(
        slug="internal-error",
        status=500,
        title="The service failed",
        meaning="A fault of the service, not of the request. It has been logged.",
        remedy="Report it with the time and the path. Sending the same request again will not help.",
    ),
    ProblemRow(
        slug="not-ready",
        status=503,
        title="The service is not ready",
        meaning="The reference calculation of the readiness check did not give its known answer, or the service was "
        "asked to stop.",
        remedy="Send work elsewhere and look at the log.",
    ),
    ProblemRow(
        slug="overloaded",
        status=503,
        title="The service is busy",
        meaning="As many calculations run, or as many large bodies are read, as may at once. This one was not begun.",
        remedy="Send it again after the seconds in the Retry-After field, and wait longer each time.",
    ),
)

PROBLEMS: dict[str, ProblemRow] = {row.slug: row for row in _ROWS}
