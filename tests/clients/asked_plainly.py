"""The main job without any generated client: what the two programs beside this must have been told."""

import json
import urllib.error
import urllib.request
from pathlib import Path
from typing import Any

UNIT = (Path(__file__).parents[2] / "deploy" / "demo-unit.json").read_text()
SIZING = {
    "pan_pressure": {"value": -1.2, "unit": "inH2O"},
    "pipe_size": "3/4",
    "clearance_below_outlet": {"value": 7, "unit": "in"},
}


def post(address: str, path: str, body: str) -> Any:
    """What the service answers, problem or not."""
    request = urllib.request.Request(
        f"{address}{path}?units=si", body.encode(), {"Content-Type": "application/json"}, method="POST"
    )
    try:
        with urllib.request.urlopen(request, timeout=30) as response:
            return json.load(response)
    except urllib.error.HTTPError as error:
        return json.load(error)


def main_job(address: str) -> dict[str, Any]:
    """Do the main job.

    Parameters
    ----------
    address : str
        Of the service.

    Returns
    -------
    dict
        As the programs print it.
    """
    assessed = post(address, "/v1/assessment", UNIT)
    sized = post(address, "/v1/trap-sizing", json.dumps(SIZING))
    refusal = post(address, "/v1/trap-sizing", json.dumps(SIZING | {"pan_pressure": {"value": -500, "unit": "inH2O"}}))
    failures = [finding for finding in assessed["findings"] if finding["severity"] == "fail"]
    return {
        "verdict": assessed["verdict"],
        "failures": [{name: finding[name] for name in ("code", "message", "remedy")} for finding in failures],
        "cautions": [caution["code"] for caution in assessed["cautions"]],
        "trap": {
            "verdict": sized["verdict"],
            "outlet_drop": sized["results"]["outlet_drop"],
            "seal_depth": sized["results"]["seal_depth"],
        },
        "refusal": {name: refusal[name] for name in ("type", "status", "errors")},
    }
