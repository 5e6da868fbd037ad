"""The service's own exceptions: they hold their parts, and compose a message once.

Nothing here knows HTTP. ``routes`` decides which status an exception becomes.
"""

from collections.abc import Mapping


class ServiceError(Exception):
    """Root of every exception raised on purpose by this service."""


class OutOfRange(ServiceError):
    """A number outside the limits that its calculation declares.

    Parameters
    ----------
    name : str
        The argument's name.
    value : float
        The number received, SI.
    low, high : float
        The limits, SI, both inclusive.
    """

    def __init__(self, name: str, value: float, low: float, high: float) -> None:
        super().__init__(f"{name} is {value:g}; allowed {low:g} to {high:g} (SI)")
        self.name, self.value, self.low, self.high = name, value, low, high


class Contradiction(ServiceError):
    """Facts that cannot all be true of one installation.

    Parameters
    ----------
    code : str
        A finding code of the catalogue; its text says what contradicts what.
    pointer : str
        RFC 6901 pointer to the member at fault, from the calculation's own request.
    values : mapping
        The numbers the text of the finding names, SI.

    Notes
    -----
    A single operation answers it with 422; an assessment turns it into a finding.
    """

    def __init__(self, code: str, pointer: str, values: Mapping[str, float | str] | None = None) -> None:
        super().__init__(f"{code} at {pointer}")
        self.code, self.pointer, self.values = code, pointer, dict(values or {})
