"""Pairs of observations that cannot both be so. Basis: what the words mean."""

CONFLICTS: tuple[tuple[tuple[str, str], tuple[str, str]], ...] = (
    (("water_shows", "nowhere"), ("float_state", "up-in-water")),
    (("trap_state", "missing"), ("outlet_drop", "enough")),
    (("trap_state", "missing"), ("outlet_drop", "too-small")),
    (("trap_state", "missing"), ("seal_depth", "enough")),
    (("trap_state", "missing"), ("seal_depth", "too-small")),
    (("trap_state", "missing"), ("trap_shared", "several-units")),
    (("pump_power", "dead"), ("pump_motor", "hums")),
    (("pump_power", "dead"), ("pump_motor", "runs-and-empties")),
    (("pump_power", "dead"), ("pump_motor", "runs-and-stays-full")),
    (("pump_power", "dead"), ("pump_motor", "runs-with-empty-tank")),
    (("pump_power", "dead"), ("pump_motor", "starts-often")),
    (("pump_power", "dead"), ("tube_off_test", "strong-stream")),
    (("pump_power", "dead"), ("tube_off_test", "weak-stream")),
    (("line_course", "falls"), ("second_trap", "unvented")),
    (("water_shows", "pump-tank"), ("pump_motor", "runs-with-empty-tank")),
)
"""Each pair: observation and value, twice. Both still count in the ranking; a finding names them."""
