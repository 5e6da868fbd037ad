"""The main job with the generated client: ``python main_job.py ADDRESS UNIT``. Prints what it was told."""

import json
import sys

from condensate_drainage_service_client import Client
from condensate_drainage_service_client.api.assessment import assess_unit
from condensate_drainage_service_client.api.trap_sizing import size_trap
from condensate_drainage_service_client.models import (
    AssessmentAnswer,
    AssessmentRequest,
    Length,
    LengthUnit,
    NominalSize,
    Pressure,
    PressureUnit,
    Problem,
    Severity,
    TrapSizingAnswer,
    TrapSizingRequest,
    UnitSystem,
)


def main(address: str, unit: str) -> None:
    """Assess the unit, size a trap for it, and ask for one that cannot be.

    Parameters
    ----------
    address : str
        Of the service.
    unit : str
        The unit as JSON.
    """
    client = Client(base_url=address)
    body = AssessmentRequest.from_dict(json.loads(unit))
    assessed = assess_unit.sync(client=client, body=body, units=UnitSystem.SI)
    assert isinstance(assessed, AssessmentAnswer), assessed
    failures = [finding for finding in assessed.findings if finding.severity is Severity.FAIL]

    wanted = TrapSizingRequest(
        pan_pressure=Pressure(value=-1.2, unit=PressureUnit.INH2O),
        pipe_size=NominalSize.THREE_QUARTER_INCH,
        clearance_below_outlet=Length(value=7, unit=LengthUnit.IN),
    )
    sized = size_trap.sync(client=client, body=wanted, units=UnitSystem.SI)
    assert isinstance(sized, TrapSizingAnswer), sized

    wanted.pan_pressure.value = -500
    refusal = size_trap.sync(client=client, body=wanted, units=UnitSystem.SI)
    assert isinstance(refusal, Problem), refusal

    told = {
        "verdict": assessed.verdict.value,
        "failures": [
            {"code": finding.code.value, "message": finding.message, "remedy": finding.remedy} for finding in failures
        ],
        "cautions": [caution.code.value for caution in assessed.cautions],
        "trap": {
            "verdict": sized.verdict.value,
            "outlet_drop": sized.results.outlet_drop.to_dict(),
            "seal_depth": sized.results.seal_depth.to_dict(),
        },
        "refusal": {
            "type": refusal.type_,
            "status": refusal.status,
            "errors": [fault.to_dict() for fault in refusal.errors],
        },
    }
    assert AssessmentAnswer.from_dict(assessed.to_dict()) == assessed
    print(json.dumps(told))


if __name__ == "__main__":
    main(*sys.argv[1:])
