"""Condensate drainage service.

Two coordinates find any line: the floor (what kind of knowledge) and the subject
(condensate, trap, drain, pump, overflow, assessment). The same subject word stands on
every floor, from the URL to the formula.

    app.py           create_app(): the one place where the parts meet
    settings.py      frozen settings read once from the environment
    units.py         the one pint registry; wire quantity <-> SI float
    log_lines.py     the form of the log
    errors.py        the service's own exceptions, parts stored, message composed once
    tables/          published data and the text of every finding, with its source
    calculations/    physics and rules; SI floats in, frozen results out; no HTTP, JSON, pint
    schemas/         names, bounds, descriptions, examples of every payload
    drawings/        SVG of an answer
    reports/         HTML and PDF of an assessment
    pages/           guide, curl book and other pages for people
    routes/          HTTP: one short view per operation

Imports point down only, and tests/test_import_law.py enforces it:

    tables, errors, units, settings,
    log_lines                          nothing of ours
    calculations                       calculations (no circles), tables, errors
    schemas                            calculations, tables, errors, units
    drawings                           drawings, calculations, tables, units
    reports                            reports, drawings, calculations, tables, units
    pages                              pages, tables
    routes                             everything above
    app                                routes, settings
"""
