"""``POST /v1/maintenance-round``."""

from typing import Any

from service.calculations.answer import Answer
from service.routes.batch import AnsweredRound, answer_round
from service.routes.blueprint import Blueprint
from service.schemas.maintenance_round import MaintenanceRoundAnswer, MaintenanceRoundRequest

ROUND_BODY_LIMIT = 48 * 1024 * 1024
"""As for a batch of assessments: the largest unit takes 35.4 kB with access and last cleaning, a thousand 33.8 MiB."""

TABLES = {"text/csv": "service.reports.round_table:write_table"}

blueprint = Blueprint(
    "maintenance-round",
    __name__,
    description="Many units of one agreement: which first, how long it takes, what to load.",
)


@blueprint.route("/v1/maintenance-round", methods=["POST"])
@blueprint.response(200, MaintenanceRoundAnswer, renderings=TABLES)
@blueprint.arguments(MaintenanceRoundRequest, body_limit=ROUND_BODY_LIMIT)
def plan_round(body: Any) -> Answer[AnsweredRound]:
    """Which unit of an agreement is visited first and why, how long does the round take, and what is loaded?

    Up to 1,000 units, each as an assessment takes it, with access and last cleaning. The answer gives each unit's
    class (`now`, `this-week`, `this-month`, `next-visit`) with every reason, what fails soonest and what that would
    wet; a visiting order with day and technician; the minutes; gas, cartridges and water under each method; parts worth
    carrying; and what was not known. What is not known never counts as safe. A unit that does not match the schema gets
    a problem in its own row, with pointers from the unit, and the others are answered.

    `Accept: text/csv` gives the visiting order as a table, one line a unit, with whole minutes; a text that a
    spreadsheet would take for a formula gets an apostrophe in front.
    """
    return answer_round(**body)
