"""The Kubernetes manifests: what the cluster will make of them, and that they say what the service does.

The judges are the published schemas of Kubernetes (kubernetes-validate), yamllint, and the Pod Security Standards.
`tests/deploy/policy` adds a policy scanner.
"""

import os
import re
import subprocess
import sys
import time
import warnings
from pathlib import Path
from typing import Any

import kubernetes_validate
import pytest
import yaml
from flask import Flask
from starting import ROOT, ask, container_command, free_port, wait_until_ready
from yamllint import linter
from yamllint.config import YamlLintConfig

from service.settings import read_settings

FOLDER = ROOT / "deploy" / "kubernetes"
FILES = sorted(path for path in FOLDER.glob("*.yaml") if path.name != "kustomization.yaml")
OBJECTS: list[dict[str, Any]] = [row for path in FILES for row in yaml.safe_load_all(path.read_text())]
KUSTOMIZATION = yaml.safe_load((FOLDER / "kustomization.yaml").read_text())
NAMESPACE = "condensate-drainage"

# matchLabelKeys is on by default from 1.27 on; 1.37 is the newest that is published
VERSIONS = ("1.27", "1.37")


def one(kind: str) -> dict[str, Any]:
    """The only object of a kind."""
    (found,) = [row for row in OBJECTS if row["kind"] == kind]
    return found


DEPLOYMENT = one("Deployment")["spec"]
POD = DEPLOYMENT["template"]["spec"]
(CONTAINER,) = POD["containers"]
ENVIRONMENT = {row["name"]: row["value"] for row in CONTAINER["env"]}
LABELS = DEPLOYMENT["template"]["metadata"]["labels"]
PROBES = ("startupProbe", "readinessProbe", "livenessProbe")


@pytest.fixture
def environment(tmp_path: Path) -> dict[str, str]:
    """What the Deployment sets, with a file of keys where the secret would be, and little else."""
    keys = tmp_path / "keys"
    keys.write_text(f"dispatch:{'0' * 64}\n")
    return {"PATH": f"{Path(sys.executable).parent}:/usr/bin:/bin", **ENVIRONMENT, "API_KEYS_FILE": str(keys)}


def seconds_of(probe: dict[str, Any]) -> int:
    """How long a probe may fail before it has a consequence."""
    return probe["periodSeconds"] * probe["failureThreshold"]


def quantity(text: str) -> float:
    """A Kubernetes quantity of processor or memory, in cores or MiB."""
    for suffix, factor in (("m", 1e-3), ("Mi", 1.0), ("Gi", 1024.0), ("", 1.0)):
        if text.endswith(suffix):
            return float(text.removesuffix(suffix)) * factor
    raise AssertionError(text)


def check_schema(row: dict[str, Any], version: str) -> None:
    """Raise unless the strict schema of this very version accepts an object."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", DeprecationWarning)  # how the validator looks for its own files
        assert kubernetes_validate.validate(row, version, strict=True) == version


def covers(selector: dict[str, str], labels: dict[str, str]) -> bool:
    return bool(selector) and selector.items() <= labels.items()


@pytest.mark.parametrize("version", VERSIONS)
@pytest.mark.parametrize("row", OBJECTS, ids=lambda row: f"{row['kind']}-{row['metadata']['name']}")
def test_published_schema_accepts_every_object(row: dict[str, Any], version: str) -> None:
    check_schema(row, version)


def test_published_schema_would_see_a_misspelt_member() -> None:
    row = yaml.safe_load((FOLDER / "deployment.yaml").read_text())
    row["spec"]["template"]["spec"]["automountServiceAccountTokens"] = False
    with pytest.raises(kubernetes_validate.ValidationError):
        check_schema(row, VERSIONS[-1])


def test_yamllint_has_nothing_to_say() -> None:
    rules = "{extends: default, rules: {document-start: disable, line-length: {max: 120}}}"
    for path in sorted(FOLDER.glob("*.yaml")):
        assert [str(problem) for problem in linter.run(path.read_text(), YamlLintConfig(rules))] == [], path.name


def test_kustomization_lists_every_file_and_every_object_is_in_the_namespace() -> None:
    assert sorted(KUSTOMIZATION["resources"]) == [path.name for path in FILES]
    assert KUSTOMIZATION["namespace"] == one("Namespace")["metadata"]["name"] == NAMESPACE
    for row in OBJECTS:
        assert row["kind"] == "Namespace" or row["metadata"]["namespace"] == NAMESPACE
    named = [(row["kind"], row["metadata"]["name"]) for row in OBJECTS]
    assert len(set(named)) == len(named)


def test_image_is_named_by_digest_and_is_nobodys() -> None:
    name, _, digest = CONTAINER["image"].partition("@")
    assert re.fullmatch("sha256:[0-9a-f]{64}", digest)
    assert name.startswith(
        "registry.example/"
    )  # RFC 2606: .example is nobody's, so a forgotten placeholder fetches nothing
    (image,) = KUSTOMIZATION["images"]
    assert image["name"] == name
    assert re.fullmatch("sha256:[0-9a-f]{64}", image["digest"])


def test_selectors_meet_the_pods() -> None:
    assert covers(DEPLOYMENT["selector"]["matchLabels"], LABELS)
    assert covers(one("Service")["spec"]["selector"], LABELS)
    assert covers(one("PodDisruptionBudget")["spec"]["selector"]["matchLabels"], LABELS)
    for constraint in POD["topologySpreadConstraints"]:
        assert covers(constraint["labelSelector"]["matchLabels"], LABELS)
    assert {row["topologyKey"] for row in POD["topologySpreadConstraints"]} == {
        "kubernetes.io/hostname",
        "topology.kubernetes.io/zone",
    }


def test_port_is_the_same_everywhere() -> None:
    (port,) = CONTAINER["ports"]
    assert ENVIRONMENT["BIND"] == f"0.0.0.0:{port['containerPort']}"
    assert f"EXPOSE {port['containerPort']}" in (ROOT / "Dockerfile").read_text().splitlines()
    assert [row["targetPort"] for row in one("Service")["spec"]["ports"]] == [port["name"]]
    for name in PROBES:
        assert CONTAINER[name]["httpGet"]["port"] == port["name"]


def test_probes_ask_what_there_is(app: Flask) -> None:
    routes = {rule.rule for rule in app.url_map.iter_rules() if "GET" in (rule.methods or ())}
    for name in PROBES:
        assert CONTAINER[name]["httpGet"]["path"] in routes
    # a busy or drained pod leaves the service; only a dead one is killed
    assert CONTAINER["readinessProbe"]["httpGet"]["path"] == "/readyz"
    assert CONTAINER["livenessProbe"]["httpGet"]["path"] == "/livez"


def test_every_setting_is_one_of_the_service(environment: dict[str, str]) -> None:
    source = (ROOT / "service" / "settings.py").read_text()
    known = set(re.findall(r'reader\.\w+\(\s*"([A-Z_]+)"', source))
    known |= {f"{name}_FILE" for name in re.findall(r'reader\.keys\("([A-Z_]+)"', source)}
    assert {"BIND", "WEB_CONCURRENCY", "THREADS", "API_KEYS_FILE"} <= set(ENVIRONMENT) <= known
    settings = read_settings(environment)  # and each has a value the service takes
    assert len(settings.keys) == 1
    assert not settings.allow_open


def test_keys_come_from_a_secret_and_are_not_written_here() -> None:
    (volume,) = POD["volumes"]
    (mount,) = CONTAINER["volumeMounts"]
    assert mount["name"] == volume["name"]
    assert mount["readOnly"] is True
    assert not volume["secret"].get("optional")
    folder, _, file = ENVIRONMENT["API_KEYS_FILE"].rpartition("/")
    assert mount["mountPath"] == folder
    assert volume["secret"]["defaultMode"] & 0o007 == 0
    assert POD["securityContext"]["fsGroup"] == POD["securityContext"]["runAsGroup"]  # who may read it then
    assert "Secret" not in {row["kind"] for row in OBJECTS}
    guide = (FOLDER / "README.md").read_text()
    assert f"secret generic {volume['secret']['secretName']} --from-file={file}=" in guide


def test_server_takes_the_settings_and_ends_before_it_is_killed(environment: dict[str, str]) -> None:
    ran = subprocess.run(
        [*container_command(), "--print-config"],
        cwd=ROOT,
        env=environment,
        capture_output=True,
        text=True,
        check=True,
    )
    settings = dict(re.findall(r"^(\w+) += (.*)$", ran.stdout, re.MULTILINE))
    assert settings["workers"] == ENVIRONMENT["WEB_CONCURRENCY"]
    assert settings["threads"] == ENVIRONMENT["THREADS"]
    assert ENVIRONMENT["BIND"] in settings["bind"]
    drain = int(ENVIRONMENT["DRAIN_SECONDS"])
    assert drain >= 5  # common practice, no source: what the proxies of a cluster take to hear that a pod is going
    assert drain + int(settings["graceful_timeout"]) + 5 <= POD["terminationGracePeriodSeconds"]
    # the server replaces a stuck worker itself; the kubelet, who ends all of them, comes later
    assert seconds_of(CONTAINER["livenessProbe"]) > int(settings["timeout"])


def test_service_starts_in_that_environment_and_ends_in_time(environment: dict[str, str], tmp_path: Path) -> None:
    port = free_port()
    with (
        (tmp_path / "log").open("w") as log,
        subprocess.Popen(
            container_command(), cwd=ROOT, env={**environment, "BIND": f"127.0.0.1:{port}"}, stdout=log, stderr=log
        ) as process,
    ):
        try:
            began = time.monotonic()
            wait_until_ready(process, port)
            # in half the time that the probe allows, on whatever machine this is
            assert time.monotonic() - began < seconds_of(CONTAINER["startupProbe"]) / 2
            for name in PROBES:
                assert ask(port, "GET", CONTAINER[name]["httpGet"]["path"])[0] == 200
            assert ask(port, "POST", "/v1/drain-pitch", {"run": {"value": 32, "unit": "ft"}})[0] == 401
            children = Path(f"/proc/{process.pid}/task/{process.pid}/children")
            if children.exists():
                workers = int(ENVIRONMENT["WEB_CONCURRENCY"])
                # the first answers while the others are still being started
                while len(children.read_text().split()) < workers and time.monotonic() - began < 30.0:
                    time.sleep(0.1)
                assert len(children.read_text().split()) == workers
        finally:
            process.terminate()
            assert process.wait(POD["terminationGracePeriodSeconds"]) == 0


def test_new_pods_are_ready_before_old_ones_go() -> None:
    assert DEPLOYMENT["strategy"]["type"] == "RollingUpdate"
    assert DEPLOYMENT["strategy"]["rollingUpdate"]["maxUnavailable"] == 0
    assert DEPLOYMENT["strategy"]["rollingUpdate"]["maxSurge"] >= 1


def test_autoscaler_has_a_target_and_alone_says_how_many() -> None:
    scaler = one("HorizontalPodAutoscaler")["spec"]
    target = scaler["scaleTargetRef"]
    found = one(target["kind"])
    assert (found["apiVersion"], found["metadata"]["name"]) == (target["apiVersion"], target["name"])
    assert "replicas" not in DEPLOYMENT  # applying the file again would undo the autoscaler's decision
    assert 2 <= scaler["minReplicas"] < scaler["maxReplicas"]
    (metric,) = scaler["metrics"]
    assert metric["resource"]["name"] in CONTAINER["resources"]["requests"]  # a share of nothing is never reached
    assert one("PodDisruptionBudget")["spec"]["maxUnavailable"] < scaler["minReplicas"]


def test_resources_are_the_measured_ones() -> None:
    requests, limits = CONTAINER["resources"]["requests"], CONTAINER["resources"]["limits"]
    assert quantity(requests["cpu"]) <= quantity(limits["cpu"])
    assert quantity(requests["memory"]) <= quantity(limits["memory"])
    # a worker computes on one core at a time, so such a limit throttles nobody
    assert quantity(limits["cpu"]) == int(ENVIRONMENT["WEB_CONCURRENCY"])
    note = (ROOT / "deploy" / "CAPACITY.md").read_text()
    for part in (requests, limits):
        for value in part.values():
            assert f"`{value}`" in note


def test_pod_meets_the_restricted_standard() -> None:
    """Every rule for Linux of the Pod Security Standards' "Restricted" profile; and the cluster enforces it."""
    labels = one("Namespace")["metadata"]["labels"]
    assert labels["pod-security.kubernetes.io/enforce"] == "restricted"
    for member in ("hostNetwork", "hostPID", "hostIPC", "initContainers", "ephemeralContainers"):
        assert member not in POD
    for volume in POD.get("volumes", []):
        assert set(volume) - {"name"} <= {"configMap", "emptyDir", "projected", "secret", "downwardAPI", "csi"}
    pod, container = POD["securityContext"], CONTAINER["securityContext"]
    assert pod["runAsNonRoot"] is True
    assert pod["seccompProfile"] == {"type": "RuntimeDefault"}
    assert container["allowPrivilegeEscalation"] is False
    assert container["capabilities"] == {"drop": ["ALL"]}
    assert "privileged" not in container
    assert "sysctls" not in pod
    # and beyond it
    assert container["readOnlyRootFilesystem"] is True
    assert POD["automountServiceAccountToken"] is False
    assert f"USER {pod['runAsUser']}:{pod['runAsGroup']}" in (ROOT / "Dockerfile").read_text().splitlines()


def test_network_lets_in_the_port_and_lets_out_nothing() -> None:
    policies = [row["spec"] for row in OBJECTS if row["kind"] == "NetworkPolicy"]
    for policy in policies:
        assert set(policy["policyTypes"]) == {"Ingress", "Egress"}
        assert not policy.get("egress")
    (everything,) = [policy for policy in policies if policy["podSelector"] == {}]
    assert not everything.get("ingress")
    (service,) = [policy for policy in policies if policy["podSelector"]]
    assert covers(service["podSelector"]["matchLabels"], LABELS)
    (rule,) = service["ingress"]
    assert rule["ports"] == [{"protocol": "TCP", "port": CONTAINER["ports"][0]["name"]}]
    assert all(peer["namespaceSelector"]["matchLabels"] for peer in rule["from"])


def test_guide_speaks_of_what_there_is() -> None:
    guide = (FOLDER / "README.md").read_text()
    names = {row["metadata"]["name"] for row in OBJECTS}
    for kind, name in re.findall(r"\b(deployment|service|hpa|pdb)/([a-z-]+)", guide):
        assert name in names, f"{kind}/{name}"
    assert set(re.findall(r"(?:-n|--namespace) ([a-z-]+)", guide)) == {NAMESPACE}
    (label,) = one_rule()["from"][0]["namespaceSelector"]["matchLabels"].items()
    assert "=".join(label) in guide
    for path in re.findall(r"\]\(([^)#:]+)\)", guide):
        assert (FOLDER / path).exists(), path
    assert os.access(ROOT / "tests" / "deploy" / "policy", os.X_OK)


def one_rule() -> dict[str, Any]:
    """The one rule that lets anything in."""
    (rule,) = [rule for row in OBJECTS if row["kind"] == "NetworkPolicy" for rule in row["spec"].get("ingress", [])]
    return rule
