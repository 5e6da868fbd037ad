"""Deprecation told by an operation of a throw-away application; none of the service is deprecated."""

from datetime import UTC, datetime, timedelta, timezone
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient

from service.calculations.answer import Answer
from service.calculations.drain_pitch import DrainPitch, pitch_drain
from service.routes.blueprint import Blueprint
from service.routes.deprecation import Deprecation
from service.routes.document import Api, document_of
from service.schemas.drain_pitch import DrainPitchAnswer, DrainPitchRequest

# the moment, its form on the wire and its number are the example of RFC 9745, 2.1
SINCE = datetime(2023, 6, 30, 23, 59, 59, tzinfo=UTC)
# the example of RFC 8594, 3
SUNSET = datetime(2023, 12, 31, 23, 59, 59, tzinfo=UTC)
BODY = {"run": {"value": 32, "unit": "ft"}}


def application(deprecated: Deprecation | None) -> Flask:
    blueprint = Blueprint("old", __name__, description="Thrown away.")

    @blueprint.route("/v1/old-pitch", methods=["POST"], deprecated=deprecated)
    @blueprint.response(200, DrainPitchAnswer)
    @blueprint.arguments(DrainPitchRequest)
    def pitch_as_before(body: Any) -> Answer[DrainPitch]:
        """An operation that will go."""
        return pitch_drain(**body)

    app = Flask(__name__)
    Api(app).register_blueprint(blueprint)
    return app


def test_every_answer_of_a_deprecated_operation_tells_it() -> None:
    app = application(Deprecation(since=SINCE, sunset=SUNSET, notice="/docs#old-pitch", successor="/v2/drain-pitch"))
    answers = [app.test_client().post("/v1/old-pitch", json=body) for body in (BODY, {"runn": 1})]
    assert [answer.status_code for answer in answers] == [200, 400]
    for answer in answers:
        assert answer.headers["Deprecation"] == "@1688169599"
        assert answer.headers["Sunset"] == "Sun, 31 Dec 2023 23:59:59 GMT"
        assert answer.headers["Link"] == (
            '</docs#old-pitch>; rel="deprecation"; type="text/html", </v2/drain-pitch>; rel="successor-version"'
        )
    operation = document_of(app)["paths"]["/v1/old-pitch"]["post"]
    assert operation["deprecated"] is True
    assert operation["operationId"] == "pitch_as_before"
    assert set(operation["responses"]["200"]["headers"]) == {"Deprecation", "Sunset", "Link"}
    assert operation["responses"]["200"]["content"]["application/json"]["examples"]


def test_a_deprecation_may_leave_open_when_and_what_then() -> None:
    answer = application(Deprecation(since=SINCE, notice="/docs")).test_client().post("/v1/old-pitch", json=BODY)
    assert answer.headers["Link"] == '</docs>; rel="deprecation"; type="text/html"'
    assert "Sunset" not in answer.headers


def test_an_operation_that_stays_tells_nothing() -> None:
    app = application(None)
    answer = app.test_client().post("/v1/old-pitch", json=BODY)
    assert answer.status_code == 200
    assert not {"Deprecation", "Sunset", "Link"} & set(answer.headers.keys())
    assert "deprecated" not in document_of(app)["paths"]["/v1/old-pitch"]["post"]


def test_no_operation_of_the_service_is_deprecated_now(client: FlaskClient) -> None:
    paths = client.get("/openapi.json").get_json()["paths"]
    operations = [paths[path][method] for path in paths for method in {"get", "post"} & set(paths[path])]
    assert not [each["operationId"] for each in operations if "deprecated" in each]
    assert "Deprecation" not in client.post("/v1/drain-pitch", json=BODY).headers


@pytest.mark.parametrize(
    ("since", "sunset"),
    [
        (datetime(2023, 6, 30), None),
        (SINCE, datetime(2024, 6, 30)),
        (SINCE, SINCE - timedelta(seconds=1)),  # RFC 9745, 4: a sunset is not earlier
    ],
)
def test_a_time_without_a_zone_or_out_of_order_is_refused(since: datetime, sunset: datetime | None) -> None:
    with pytest.raises(ValueError, match=r"a time|a sunset"):
        Deprecation(since=since, sunset=sunset, notice="/docs")


def test_times_of_another_zone_are_told_in_greenwich() -> None:
    there = timezone(timedelta(hours=-5))
    fields = Deprecation(since=SINCE.astimezone(there), sunset=SUNSET.astimezone(there), notice="/docs").fields()
    assert (fields["Deprecation"], fields["Sunset"]) == ("@1688169599", "Sun, 31 Dec 2023 23:59:59 GMT")
