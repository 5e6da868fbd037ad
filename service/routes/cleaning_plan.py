"""``POST /v1/cleaning-plan``."""

from typing import Any

from service.calculations import cleaning_plan
from service.calculations.answer import Answer
from service.routes.blueprint import Blueprint
from service.schemas.cleaning_plan import CleaningPlanAnswer, CleaningPlanRequest

blueprint = Blueprint(
    "cleaning-plan",
    __name__,
    description="How to clean a drain with the access there is, and how to prove that it runs.",
)


@blueprint.route("/v1/cleaning-plan", methods=["POST"])
@blueprint.response(200, CleaningPlanAnswer)
@blueprint.arguments(CleaningPlanRequest)
def plan_cleaning(body: Any) -> Answer[cleaning_plan.CleaningPlan]:
    """How is this drain cleaned with the access there is, what is carried, and how is it proved?

    Post what is known of the drain and what is on the truck. The answer gives the steps in order, each with its
    place, tool, openings to close, pressure limit, time and cautions; why this method, and why the others are
    refused; how many drains a cylinder or a box of cartridges will do; and the closing test: what to pour, when it
    must show, what counts as a pass.
    """
    return cleaning_plan.plan_cleaning(**body)
