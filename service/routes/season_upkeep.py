"""``POST /v1/season-upkeep``."""

from typing import Any

from service.calculations import season_upkeep
from service.calculations.answer import Answer
from service.calculations.upkeep_results import SeasonUpkeep
from service.routes.blueprint import Blueprint
from service.schemas.season_upkeep import SeasonUpkeepAnswer, SeasonUpkeepRequest

blueprint = Blueprint("season-upkeep", __name__, description="What to check in which season.")


@blueprint.route("/v1/season-upkeep", methods=["POST"])
@blueprint.response(200, SeasonUpkeepAnswer)
@blueprint.arguments(SeasonUpkeepRequest)
def plan_upkeep(body: Any) -> Answer[SeasonUpkeep]:
    """Which checks belong to spring start-up, mid-season, autumn and winter for this unit?

    Post what is known of the unit, as the assessment takes it, of a condensing furnace or boiler, and the months with
    cooling. The answer lists each season's checks with the unit's own numbers and the reasons: what slime, drying
    out, frost and the furnace's acid water do to this drain through the year. What is not known becomes a check that
    finds it out.
    """
    return season_upkeep.plan_upkeep(**body)
