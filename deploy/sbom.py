"""Writes the bill of materials of what the image holds: ``python deploy/sbom.py``; ``deploy/lock`` calls it.

Names, versions and hashes come from deploy/requirements.lock, licences and who needs whom from the installed packages,
so it runs in an environment that has them (``.venv-tests``). The same lock file gives the same bytes. It writes
deploy/sbom.cdx.json (CycloneDX 1.6) and deploy/LICENCES.md.
"""

import hashlib
import importlib.metadata
import json
import re
import sys
import tomllib
import uuid
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).resolve().parent.parent
LOCK = ROOT / "deploy" / "requirements.lock"

# Packages that give no SPDX expression in their metadata: what the licence text in the wheel is. deploy/lock stops at a
# package that is in neither place; then read its licence and add it here.
LICENCES = {
    "blinker": "MIT",
    "flask-smorest": "MIT",
    "flexcache": "BSD-3-Clause",
    "flexparser": "BSD-3-Clause",
    "itsdangerous": "BSD-3-Clause",
    "jinja2": "BSD-3-Clause",
    "markdown-it-py": "MIT",
    "mdurl": "MIT",
    "pint": "BSD-3-Clause",
    "svg-py": "MIT",
    "webargs": "MIT",
}

# Other people's work inside a wheel, which the wheel's own expression does not name.
INSIDE = {
    "flask-swagger-ui": "Swagger UI, Apache-2.0",
    "numpy": "OpenBLAS, BSD-3-Clause; libgfortran and libquadmath of GCC, GPL-3.0-or-later WITH GCC-exception-3.1 and "
    "LGPL-2.1-or-later, as shared libraries beside it",
    "typst": "Rust crates, listed with their licences in the wheel's own bill (typst-py.cyclonedx.json); fonts: "
    "Libertinus Serif, OFL-1.1; New Computer Modern, GUST Font License; DejaVu Sans Mono, Bitstream-Vera",
}


@dataclass(frozen=True, kw_only=True, slots=True)
class Package:
    """A locked package.

    Parameters
    ----------
    name, version : str
        As the lock file has them.
    hashes : tuple of str
        SHA-256 of each file the index offers for it.
    licence : str
        SPDX expression.
    needs : tuple of str
        The locked packages it declares, on whatever Python.
    """

    name: str
    version: str
    hashes: tuple[str, ...]
    licence: str
    needs: tuple[str, ...]

    @property
    def reference(self) -> str:
        """Package URL."""
        return f"pkg:pypi/{self.name}@{self.version}"


def _licence(name: str, metadata: Any) -> str:
    expression = metadata.get("License-Expression") or LICENCES.get(name)
    if not expression:
        sys.exit(f"{name} declares no SPDX expression: read its licence text and add it to LICENCES in deploy/sbom.py.")
    return str(expression)


def _needs(name: str, declared: list[str] | None, locked: frozenset[str]) -> tuple[str, ...]:
    rows = [Requirement(text) for text in declared or []]
    names = {canonicalize_name(row.name) for row in rows if "extra" not in str(row.marker or "")}
    return tuple(sorted((names & locked) - {name}))


def read_packages(lock: str) -> list[Package]:
    """Every package of a lock file, by name.

    Parameters
    ----------
    lock : str
        Text of the lock file.

    Returns
    -------
    list of Package
    """
    blocks = [block for block in lock.replace("\\\n", " ").splitlines() if block and not block.startswith("#")]
    pins = {}
    for block in blocks:
        found = re.match(r"([A-Za-z0-9._-]+)==([^\s;]+)", block)
        hashes = tuple(re.findall(r"--hash=sha256:([0-9a-f]{64})", block))
        if not found or not hashes:
            sys.exit(f"Not a pinned and hashed line of a lock file: {block[:80]}")
        pins[canonicalize_name(found[1])] = (found[2], hashes)
    packages = []
    for name, (version, hashes) in sorted(pins.items()):
        distribution = importlib.metadata.distribution(name)
        if distribution.version != version:
            sys.exit(f"{name} {version} is locked and {distribution.version} is installed here: run deploy/lock.")
        packages.append(
            Package(
                name=name,
                version=version,
                hashes=hashes,
                licence=_licence(name, distribution.metadata),
                needs=_needs(name, distribution.requires, frozenset(pins)),
            )
        )
    return packages


def _component(package: Package) -> dict[str, Any]:
    return {
        "type": "library",
        "bom-ref": package.reference,
        "name": package.name,
        "version": package.version,
        "scope": "required",
        "licenses": [{"expression": package.licence}],
        "purl": package.reference,
        # one of these files is installed, which one depends on Python and platform
        "externalReferences": [
            {
                "type": "distribution",
                "url": package.reference,
                "hashes": [{"alg": "SHA-256", "content": digest} for digest in package.hashes],
            }
        ],
    }


def bill_of(packages: list[Package], project: dict[str, Any], lock: bytes) -> str:
    """The bill of materials.

    Parameters
    ----------
    packages : list of Package
    project : dict
        The ``project`` table of pyproject.toml.
    lock : bytes
        The lock file; the serial number comes from it, so that the same lock file has the same bill.

    Returns
    -------
    str
        CycloneDX 1.6 as JSON.
    """
    own = f"pkg:pypi/{project['name']}@{project['version']}"
    declared = {canonicalize_name(Requirement(text).name) for text in project["dependencies"]}
    direct = [package.reference for package in packages if package.name in declared]
    references = {package.name: package.reference for package in packages}
    serial = uuid.uuid5(uuid.NAMESPACE_URL, f"{own}#{hashlib.sha256(lock).hexdigest()}")
    document = {
        "$schema": "http://cyclonedx.org/schema/bom-1.6.schema.json",
        "bomFormat": "CycloneDX",
        "specVersion": "1.6",
        "serialNumber": f"urn:uuid:{serial}",
        "version": 1,
        "metadata": {
            "component": {
                "type": "application",
                "bom-ref": own,
                "name": project["name"],
                "version": project["version"],
                "licenses": [{"license": {"name": project["license"]["text"]}}],
            }
        },
        "components": [_component(package) for package in packages],
        "dependencies": [
            {"ref": own, "dependsOn": direct},
            *(
                {"ref": package.reference, "dependsOn": [references[name] for name in package.needs]}
                for package in packages
            ),
        ],
    }
    return json.dumps(document, indent=1) + "\n"


def list_of_licences(packages: list[Package]) -> str:
    """The same for a person: packages and their licences.

    Parameters
    ----------
    packages : list of Package

    Returns
    -------
    str
        Markdown.
    """
    lines = [
        "# Licences of what the image holds",
        "",
        "Written by `deploy/lock` from the lock file; [sbom.cdx.json](sbom.cdx.json) has the same for machines, with",
        "hashes. All are permissive but two: parts of orjson are under MPL-2.0, whose terms reach changes to those",
        "files only, and they are used unchanged; NumPy's wheel brings runtime libraries of GCC, whose exception lets",
        "any program use them. Python and Debian, from the base image, have their own.",
        "",
        "| package | version | licence (SPDX) | others' work inside the wheel |",
        "| --- | --- | --- | --- |",
        *(f"| {row.name} | {row.version} | {row.licence} | {INSIDE.get(row.name, '')} |" for row in packages),
    ]
    return "\n".join(lines) + "\n"


def write_files(folder: Path) -> None:
    """Write both into a folder.

    Parameters
    ----------
    folder : pathlib.Path
    """
    lock = LOCK.read_bytes()
    packages = read_packages(lock.decode())
    project = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]
    (folder / "sbom.cdx.json").write_text(bill_of(packages, project, lock))
    (folder / "LICENCES.md").write_text(list_of_licences(packages))


if __name__ == "__main__":
    write_files(ROOT / "deploy" if len(sys.argv) < 2 else Path(sys.argv[1]))
