"""The floor: a bare Flask application whose views parse the body and answer JSON, and do nothing else.

``gunicorn floor:app`` in this folder; the file that ``ANSWERS`` names holds a JSON object, path to the document that is
answered there.
"""

import json
import os
from pathlib import Path
from typing import Any

from flask import Flask, Response, jsonify, request

app = Flask(__name__)


def _answer_with(path: str, document: Any) -> None:
    def view() -> Response:
        request.get_json()
        return jsonify(document)

    app.add_url_rule(path, path.replace(".", "-"), view, methods=["POST"])


for each, answer in json.loads(Path(os.environ["ANSWERS"]).read_bytes()).items():
    _answer_with(each, answer)
