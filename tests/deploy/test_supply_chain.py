"""What the image is made of: the bill of materials, the licences, and the lowest versions.

The judges are the published CycloneDX schema, and readers of SPDX expressions and package URLs that others wrote.
"""

import importlib.metadata
import importlib.util
import json
import re
import tomllib
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest
from cyclonedx.schema import SchemaVersion
from cyclonedx.validation.json import JsonStrictValidator
from license_expression import get_spdx_licensing
from packageurl import PackageURL
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name
from packaging.version import Version
from starting import ROOT

DEPLOY = ROOT / "deploy"
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]
BILL = json.loads((DEPLOY / "sbom.cdx.json").read_text())
COMPONENTS = {row["name"]: row for row in BILL["components"]}

# Terms that ask for no more than notices kept: texts of the Open Source Initiative and the Python Software Foundation
PERMISSIVE = {"0BSD", "Apache-2.0", "BSD-2-Clause", "BSD-3-Clause", "CC0-1.0", "ISC", "MIT", "PSF-2.0", "Zlib"}
# MPL-2.0 3.1 and 3.2: changes to its own files are passed on as source, and these are used unchanged
BY_NAME = {"orjson": {"MPL-2.0"}}

# words that stand in these licences and in no other of them
WORDS = {
    "MIT": "Permission is hereby granted, free of charge",
    "BSD-3-Clause": "Redistribution and use in source and binary forms",
}


def pins(lock: str) -> dict[str, tuple[str, set[str]]]:
    """Versions and hashes of a lock file."""
    blocks = re.findall(r"^([\w.-]+)==(\S+)(.*(?:\n    .*)*)", (DEPLOY / lock).read_text(), re.MULTILINE)
    return {name: (version, set(re.findall("sha256:([0-9a-f]{64})", rest))) for name, version, rest in blocks}


@pytest.fixture(scope="module")
def sbom() -> ModuleType:
    spec = importlib.util.spec_from_file_location("sbom", DEPLOY / "sbom.py")
    assert spec
    assert spec.loader
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_bill_is_cyclonedx() -> None:
    assert JsonStrictValidator(SchemaVersion.V1_6).validate_str(json.dumps(BILL)) is None
    assert JsonStrictValidator(SchemaVersion.V1_6).validate_str(json.dumps({**BILL, "component": []})) is not None


def test_bill_lists_exactly_what_is_locked() -> None:
    locked = pins("requirements.lock")
    assert len(locked) > 15
    assert len(COMPONENTS) == len(BILL["components"])
    billed = {
        name: (row["version"], {each["content"] for each in row["externalReferences"][0]["hashes"]})
        for name, row in COMPONENTS.items()
    }
    assert billed == locked, "run deploy/lock, or python deploy/sbom.py where the lock is as it should be"
    for name, row in COMPONENTS.items():
        url = PackageURL.from_string(row["purl"])
        assert (url.type, url.name, url.version) == ("pypi", name, row["version"])
        assert {each["alg"] for each in row["externalReferences"][0]["hashes"]} == {"SHA-256"}


def test_bill_and_list_are_as_the_command_writes_them(sbom: ModuleType, tmp_path: Path) -> None:
    sbom.write_files(tmp_path)
    for name in ("sbom.cdx.json", "LICENCES.md"):
        assert (tmp_path / name).read_text() == (DEPLOY / name).read_text(), f"{name}: run python deploy/sbom.py"


def test_bill_says_who_needs_whom() -> None:
    needs = {row["ref"]: set(row["dependsOn"]) for row in BILL["dependencies"]}
    references = {row["bom-ref"] for row in BILL["components"]}
    own = BILL["metadata"]["component"]["bom-ref"]
    assert set(needs) == references | {own}
    declared = {canonicalize_name(Requirement(text).name) for text in PROJECT["dependencies"]}
    assert {PackageURL.from_string(reference).name for reference in needs[own]} == declared
    reached: set[str] = set()
    ahead = [own]
    while ahead:
        reference = ahead.pop()
        ahead += needs[reference] - reached
        reached |= needs[reference]
    assert reached == references  # nothing is locked that nobody needs
    # by hand: what Flask 3.1 declares
    flask = {PackageURL.from_string(row).name for row in needs[COMPONENTS["flask"]["bom-ref"]]}
    assert flask == {"blinker", "click", "itsdangerous", "jinja2", "markupsafe", "werkzeug"}


@pytest.mark.parametrize("name", sorted(COMPONENTS))
def test_licence_is_permissive(name: str) -> None:
    (licence,) = COMPONENTS[name]["licenses"]
    licensing = get_spdx_licensing()
    parsed = licensing.parse(licence["expression"], validate=True, strict=True)
    assert set(licensing.license_keys(parsed)) <= PERMISSIVE | BY_NAME.get(name, set())


def test_licence_that_was_read_by_a_person_is_what_the_wheel_holds(sbom: ModuleType) -> None:
    for name, expression in sbom.LICENCES.items():
        distribution = importlib.metadata.distribution(name)
        assert not distribution.metadata.get("License-Expression"), f"{name} declares its licence now: take it out"
        texts = [
            path.read_text()
            for path in distribution.files or ()
            if ".dist-info" in str(path) and re.search("licen[cs]e|copying", path.name, re.IGNORECASE)
        ]
        assert any(WORDS[expression] in " ".join(text.split()) for text in texts), name


def test_package_without_a_licence_stops_the_command(sbom: ModuleType) -> None:
    with pytest.raises(SystemExit, match="read its licence"):
        sbom._licence("new-package", {})


def direct() -> dict[str, Any]:
    return {canonicalize_name(row.name): row.specifier for row in map(Requirement, PROJECT["dependencies"])}


def test_every_bound_below_is_tested() -> None:
    """`tests/deploy/lowest-versions` installs this lock file: each version in it is the lowest that is allowed."""
    lowest = pins("requirements-lowest.lock")
    highest = pins("requirements.lock")
    for name, specifier in direct().items():
        (bound,) = [Version(row.version) for row in specifier if row.operator == ">="]
        version = Version(lowest[name][0])
        assert version in specifier
        # the bound itself, but for a bound that names only the series: then its first release
        assert version.release[: len(bound.release)] == bound.release, name
        assert version <= Version(highest[name][0])


def test_every_dependency_has_a_bound_above() -> None:
    for name, specifier in direct().items():
        if name != "flask-swagger-ui":  # files for a browser; its version follows theirs
            assert any(row.operator == "<" for row in specifier), name
