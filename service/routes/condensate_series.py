"""``POST /v1/condensate-rate/series``."""

from typing import Any

from service.calculations import condensate_series
from service.calculations.answer import Answer
from service.routes.blueprint import Blueprint
from service.schemas.condensate_series import RateSeriesAnswer, RateSeriesRequest
from service.schemas.condensate_series_table import SERIES_TABLE

BODY_LIMIT = 2 * 1024 * 1024
"""Twice what the longest columns take, for those who indent each number."""

blueprint = Blueprint("condensate-series", __name__, description="The same water hour by hour, over as much as a year.")


@blueprint.route("/v1/condensate-rate/series", methods=["POST"])
@blueprint.response(
    200, RateSeriesAnswer, renderings={"image/svg+xml": "service.drawings.condensate_series:draw_series"}
)
@blueprint.arguments(RateSeriesRequest, body_limit=BODY_LIMIT, table=SERIES_TABLE)
def rate_series(body: Any) -> Answer[condensate_series.SeriesRate]:
    """Water made hour by hour: totals, the peak hour, and the tank for re-use.

    Post columns of entering air for up to a year of hours, with the leaving air or the coil's capacity. The answer
    gives the water by day and month, the peak with its date, how long more comes than a drain or pump takes, and how
    large a tank must be to meet a daily demand. A row that cannot be, as a wet bulb above its dry bulb, costs only
    itself: a finding counts such rows and names the first of them. The same may be posted as `text/csv`: settings, an
    empty line, a header line, then a line for each row; a malformed cell is named by line and column.
    """
    return condensate_series.rate_series(**body)
