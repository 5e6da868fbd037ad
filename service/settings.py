"""Settings, read once from the environment and frozen."""

import os
from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Settings:
    """What a deployment may choose.

    Parameters
    ----------
    testing : bool
        Let a fault of ours propagate out of the application instead of becoming a 500.
    """

    testing: bool = False


def read_settings(environment: Mapping[str, str] = os.environ) -> Settings:
    """Read the settings from environment variables; there are none to set yet."""
    return Settings()
