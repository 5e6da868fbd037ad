"""One application for every test that speaks HTTP."""

import pytest
from flask import Flask
from flask.testing import FlaskClient

from service.app import create_app
from service.settings import Settings


@pytest.fixture(scope="session")
def app() -> Flask:
    """The application; a fault of ours raises instead of becoming a 500."""
    return create_app(Settings(testing=True))


@pytest.fixture
def client(app: Flask) -> FlaskClient:
    """A client of the application, without a server."""
    return app.test_client()
