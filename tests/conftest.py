"""What holds for every test: none can reach the person's own index, and none fails for a slow machine."""

import os
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

import queries.cli

# Speed is no matter of tests: where nothing is cached yet, a loaded machine takes seconds for the first text alone.
settings.register_profile("ours", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("ours")


@pytest.fixture(autouse=True)
def _index_of_its_own(tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch) -> None:
    """Every test has an index path of its own; asking for the default one is an error."""

    def refuse() -> Path:
        raise AssertionError("a test asked for the default index path")

    monkeypatch.setenv("WEEKSHEAF_INDEX", os.fspath(tmp_path_factory.mktemp("index") / "index.db"))
    monkeypatch.setattr(queries.cli, "default_index", refuse)
