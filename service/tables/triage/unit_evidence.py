"""What the findings of an assessment say of the observations: each row, codes that amount to having seen a value.

Basis: physics, as computed by the assessment; the codes are those of the finding catalogue.
"""

UNIT_EVIDENCE: tuple[tuple[str, str, tuple[str, ...]], ...] = (
    (
        "outlet_drop",
        "too-small",
        ("outlet-drop-too-small", "trap-ends-level", "trap-outlet-above-pan-outlet", "pan-overflows-before-draining"),
    ),
    ("seal_depth", "too-small", ("seal-broken-by-suction", "seal-blown-out")),
    ("trap_state", "missing", ("trap-without-seal",)),
    ("trap_state", "dry", ("seal-evaporated",)),
    (
        "off_season_seal",
        "dries-out",
        ("trap-dries-out-off-season", "sanitary-trap-dries-out", "sanitary-seal-lasts-for"),
    ),
    ("off_season_seal", "lasts", ("seal-outlasts-off-season",)),
    ("trap_shared", "several-units", ("trap-shared",)),
    ("frost_exposure", "exposed", ("drain-can-freeze",)),
    (
        "line_size",
        "too-small",
        ("line-smaller-than-needed", "line-smaller-than-pan-outlet", "peak-flow-exceeds-line", "trap-pipe-too-small"),
    ),
    (
        "line_course",
        "flat-or-rises",
        (
            "line-runs-uphill",
            "line-is-level",
            "pitch-below-minimum",
            "segments-back-fall",
            "segments-flat",
            "segments-below-minimum",
            "pond-reaches-pan",
        ),
    ),
    ("line_course", "sags", ("pond-fills-bore", "pond-may-fill-bore")),
    ("supports", "too-far-apart", ("supports-too-far-apart",)),
    ("second_trap", "unvented", ("second-trap-unvented",)),
    ("discharge_into", "sewer-line", ("discharge-into-sanitary",)),
    ("water_amount", "more", ("measured-above-computed",)),
    ("water_amount", "less", ("measured-below-computed",)),
    ("air_flow", "too-small", ("coil-will-frost", "capacity-beyond-air")),
    ("water_shows", "unit-pan", ("pan-already-full", "cut-out-under-water")),
    ("water_shows", "secondary-drain", ("secondary-drain-under-water",)),
    (
        "pump_lift",
        "near-or-beyond",
        (
            "pump-cannot-lift",
            "pump-slower-than-inflow",
            "pump-margin-small",
            "pump-too-small",
            "pump-lift-too-high",
            "pump-tube-too-long",
            "pump-tube-too-narrow",
            "pump-near-shut-off",
            "pump-tube-bore-small",
            "pump-section-bore-small",
        ),
    ),
    ("fall_back", "runs-back", ("pump-falls-back", "pump-falls-back-each-cycle", "pump-restarts-on-fall-back")),
    ("pump_floats", "close", ("pump-short-cycling",)),
)
"""Observation, value, and the finding codes that stand for it."""
