"""create_app(): the one place where the parts meet.

Law of this floor: it imports ``routes`` and ``settings``, registers every blueprint, and decides nothing else.
"""

from pathlib import Path

import click
from flask import Flask

from service.routes import (
    admission,
    assessment,
    cleaning_plan,
    condensate_rate,
    condensate_series,
    drain_pitch,
    drain_sizing,
    drain_survey,
    health,
    maintenance_round,
    metrics,
    negotiation,
    observing,
    overflow_time,
    pages,
    pump_restriction,
    pump_run,
    reference,
    room,
    season_upkeep,
    symptom_triage,
    trap_check,
    trap_dry_out,
    trap_sizing,
)
from service.routes.document import Api, write_document
from service.routes.plain_flask import PlainFlask
from service.settings import Settings, settings_of_process

BLUEPRINTS = (
    assessment.blueprint,
    condensate_rate.blueprint,
    condensate_series.blueprint,
    trap_sizing.blueprint,
    trap_check.blueprint,
    trap_dry_out.blueprint,
    drain_pitch.blueprint,
    drain_survey.blueprint,
    drain_sizing.blueprint,
    pump_run.blueprint,
    pump_restriction.blueprint,
    overflow_time.blueprint,
    symptom_triage.blueprint,
    maintenance_round.blueprint,
    cleaning_plan.blueprint,
    season_upkeep.blueprint,
    reference.blueprint,
    pages.blueprint,
    health.blueprint,
    metrics.blueprint,
)


def create_app(settings: Settings | None = None) -> Flask:
    """Build the WSGI application.

    Parameters
    ----------
    settings : Settings or None
        Read from the environment when None.

    Returns
    -------
    flask.Flask
    """
    settings = settings or settings_of_process()
    app = PlainFlask(__name__, static_folder=None)
    app.testing = settings.testing
    api = Api(app)
    for blueprint in BLUEPRINTS:
        api.register_blueprint(blueprint)
    app.add_url_rule("/docs/assets/<name>", view_func=pages.read_asset)
    health.install(app, settings)
    app.extensions["metrics"] = metrics.metrics_of(app) if settings.metrics else None
    # before a request in this order, after it in the opposite one
    observing.install(app, settings, app.extensions["metrics"])
    admission.install(app, settings)
    room.install(app)
    negotiation.install(app)

    @app.cli.command("write-document")
    @click.argument("folder", type=click.Path(file_okay=False, path_type=Path), default=Path("openapi"))
    def _write(folder: Path) -> None:
        """Rewrite the committed OpenAPI document and the worked examples."""
        write_document(app, folder)

    return app
