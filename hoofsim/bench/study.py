"""Experiments, evidence tables and lessons: the work a class waits for."""

from collections.abc import Iterator

import numpy as np

from hoofsim.bench.timing import Row, best_seconds, peak_megabytes, times
from hoofsim.claims.accounts import account
from hoofsim.claims.evidence.cases import paired
from hoofsim.claims.evidence.generate import invented_films
from hoofsim.claims.evidence.summary import paragraph, weigh_table
from hoofsim.claims.experiment import run_experiment
from hoofsim.files.experiment import load_experiment
from hoofsim.files.reader import read_text
from hoofsim.lessons.loader import lesson_files, read_lesson
from hoofsim.model import Foot

NAME = "study"
_FACTORIAL = """\
hoofsim: 1
kind: experiment
title: Ten thousand runs
question: How do heel, toe, laminae and tendon act together?
design: factorial
foot: {{preset: sound}}
factors:
  - {{control: heel_change_mm, from: -5, to: 15, steps: {side}}}
  - {{control: toe_change_mm, from: 0, to: 15, steps: {side}}}
  - {{control: laminae_percent, from: 30, to: 100, steps: {side}}}
  - {{control: tendon_pull_percent, from: 50, to: 150, steps: {side}}}
measures: [tip_to_frog, capsular_rotation]
"""


def run(quick: bool) -> Iterator[Row]:
    """Rows of this bench."""
    side = 3 if quick else 10
    experiment = load_experiment(read_text(_FACTORIAL.format(side=side), "bench"))
    runs = side**4
    seconds = best_seconds(lambda: run_experiment(experiment), 1 if quick else 2)
    one = best_seconds(lambda: Foot("sound", heel_change_mm=3).load().measures(), 1 if quick else 10)
    yield Row(
        NAME,
        f"factorial of {runs} runs",
        seconds,
        "s",
        f"{times(one * runs / seconds)} a plain loop of single feet",
    )
    yield Row(NAME, f"peak memory of {runs} runs", peak_megabytes(lambda: run_experiment(experiment)), "MB")

    cases = 50 if quick else 1000
    films = invented_films(account("carried_sole"), cases, np.random.default_rng(1))

    def weigh() -> str:
        return paragraph(weigh_table(paired(films, "bench"), "bench"))

    yield Row(NAME, f"evidence table of {cases} cases", best_seconds(weigh, 1 if quick else 2), "s")
    yield Row(NAME, f"peak memory of {cases} cases", peak_megabytes(weigh), "MB")
    files = lesson_files()
    every = best_seconds(lambda: [read_lesson(file) for file in files], 1 if quick else 3)
    yield Row(NAME, "one lesson read and checked, mean", 1e3 * every / len(files), "ms")
