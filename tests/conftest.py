"""What holds for every test: no test can reach the person's own index."""

import os
from pathlib import Path

import pytest

import queries.cli


@pytest.fixture(autouse=True)
def _index_of_its_own(tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch) -> None:
    """Every test has an index path of its own; asking for the default one is an error."""

    def refuse() -> Path:
        raise AssertionError("a test asked for the default index path")

    monkeypatch.setenv("WEEKSHEAF_INDEX", os.fspath(tmp_path_factory.mktemp("index") / "index.db"))
    monkeypatch.setattr(queries.cli, "default_index", refuse)
