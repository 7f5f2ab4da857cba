"""Inputs that once broke a reader are fed to it again, for ever; beside them a short series of mutated ones."""

import random
from pathlib import Path

import pytest

from tests.soak.fuzz import run
from tests.soak.mutations import mutated
from tests.soak.targets import TARGETS, seeds_of

# Pillow grumbles about damaged files; the program's own filter is replaced by the one tests have.
pytestmark = pytest.mark.filterwarnings("ignore::UserWarning:PIL")

CORPUS = Path(__file__).resolve().parents[1] / "corpus"
FINDS = sorted(path for path in CORPUS.iterdir() if path.name != "README.md")


@pytest.mark.parametrize("path", FINDS, ids=lambda path: path.name)
def test_a_find_is_mended(path: Path) -> None:
    TARGETS[path.name.rpartition("-")[0]](path.read_bytes())


def test_there_are_finds_of_each_reader_that_had_some() -> None:
    assert {path.name.rpartition("-")[0] for path in FINDS} <= set(TARGETS)
    assert FINDS


@pytest.mark.parametrize("name", sorted(TARGETS))
def test_mutated_inputs_are_taken_or_refused_with_a_sentence(name: str, tmp_path: Path) -> None:
    """The whole series is `python tests/soak/fuzz.py`."""
    taken, finds, _ = run(name, 300, seed=3)
    assert finds == 0
    assert 0 < taken < 300


@pytest.mark.parametrize("name", sorted(TARGETS))
def test_a_series_is_repeatable_and_does_mutate(name: str) -> None:
    seeds = seeds_of(name)
    series = [[mutated(random.Random(f"5 {number}"), seeds) for number in range(60)] for _ in range(2)]
    assert series[0] == series[1]
    assert len(set(series[0])) > 50
    assert sum(data not in seeds for data in series[0]) > 50
