"""Experiments, evidence tables and lessons: the work a class waits for."""

from collections.abc import Iterator

import numpy as np
import yaml

from hoofsim.bench.timing import Row, best_of_each, memory_row, peak_megabytes, times
from hoofsim.claims.accounts import account
from hoofsim.claims.evidence.cases import paired
from hoofsim.claims.evidence.generate import invented_films
from hoofsim.claims.evidence.summary import paragraph, weigh_table
from hoofsim.claims.experiment import run_experiment
from hoofsim.files.experiment import load_experiment
from hoofsim.files.reader import read_file, read_text
from hoofsim.files.typed import validate
from hoofsim.lessons.loader import lesson_files, read_lesson
from hoofsim.lessons.schema import Lesson
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
    seconds, one = best_of_each(
        (
            lambda: run_experiment(experiment),
            lambda: [Foot("sound", heel_change_mm=3.0 + at).load().measures() for at in range(10)],
        ),
        1 if quick else 3,
    )
    yield Row(
        NAME,
        f"factorial of {runs} runs",
        seconds,
        "s",
        f"{times(one / 10 * runs / seconds)} a plain loop of single feet",
    )
    yield memory_row(NAME, f"{runs} runs", lambda: run_experiment(experiment), "its results")

    cases = 50 if quick else 1000
    films = invented_films(account("carried_sole"), cases, np.random.default_rng(1))

    together = paired(films, "bench")

    def weigh() -> object:
        evidence = weigh_table(together, "bench")
        return evidence, paragraph(evidence)

    def one_by_one() -> None:
        for case in together[:10]:
            weigh_table([case], "bench")

    seconds, ten = best_of_each((weigh, one_by_one), 1 if quick else 2)
    words = f"{times(ten / 10 * cases / seconds)} a plain loop of single cases"
    yield Row(NAME, f"evidence table of {cases} cases", seconds, "s", words)
    yield memory_row(NAME, f"{cases} cases", weigh, "its results")
    yield from _lessons(1 if quick else 5)


def _lessons(repeats: int) -> Iterator[Row]:
    """Reading all lessons, beside the YAML library's own safe loader on the same files, and what each part of it takes."""
    files = lesson_files()
    documents = [read_file(file) for file in files]

    def safe_load() -> list[object]:
        loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
        return [yaml.load(file.read_bytes(), Loader=loader) for file in files]

    def every() -> list[object]:
        return [read_lesson(file) for file in files]

    whole, library, read, schema = best_of_each(
        (
            every,
            safe_load,
            lambda: [read_file(file) for file in files],
            lambda: [validate(Lesson, document) for document in documents],
        ),
        repeats,
    )
    shares = (
        f"reading {read / whole:.0%}, schema {schema / whole:.0%}, checks {1 - (read + schema) / whole:.0%}"
    )
    words = f"{times(whole / library)} PyYAML's quickest safe loader, which checks nothing; {shares}"
    yield Row(NAME, "one lesson read and checked, mean", 1e3 * whole / len(files), "ms", words)
    peak, least = peak_megabytes(every), peak_megabytes(safe_load)
    words = f"{times(peak / least)} the {least:.3g} MB of PyYAML's safe loader"
    yield Row(NAME, f"peak memory of {len(files)} lessons", peak, "MB", words)
