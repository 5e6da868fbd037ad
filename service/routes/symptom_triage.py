"""``POST /v1/symptom-triage``."""

from typing import Any

from service.calculations import symptom_triage
from service.calculations.answer import Answer
from service.routes.blueprint import Blueprint
from service.schemas.symptom_triage import SymptomTriageAnswer, SymptomTriageRequest

blueprint = Blueprint(
    "symptom-triage", __name__, description="From what somebody noticed to the likely cause and the check to make next."
)


@blueprint.route("/v1/symptom-triage", methods=["POST"])
@blueprint.response(200, SymptomTriageAnswer)
@blueprint.arguments(SymptomTriageRequest)
def triage_symptom(body: Any) -> Answer[symptom_triage.Triage]:
    """What is the likely cause of this symptom, and what to check first?

    Post the symptom and whatever was observed; the unit's data, as the assessment takes them, if known. The answer
    ranks the causes with what speaks for and against each, names the check that tells the leading ones apart best and
    what each outcome would mean, and says what to make safe before anything else. `reference/symptoms` is the table
    behind it.
    """
    return symptom_triage.triage_symptom(**body)
