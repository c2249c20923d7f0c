"""Invent an evidence table under any account, with reading noise, so that a class can test the test."""

from typing import Literal

import numpy as np

from hoofsim.claims.accounts import Account
from hoofsim.claims.evidence.columns import LANDMARKS, point_columns
from hoofsim.claims.evidence.film import Film
from hoofsim.claims.population import draw_feet
from hoofsim.errors import BadInput
from hoofsim.frames import Array
from hoofsim.plain_text import csv_lines

INVENTED = (
    "INVENTED DATA: made by a program for teaching. No horse, yard or radiograph stands behind any row."
)
AMOUNTS = (5.0, 15.0)
"""Amounts drawn, degrees or mm, each as likely as another."""
MOST_CASES = 2_000
_COLUMNS = ("case", "film", "reading_error_mm", "mm_per_unit", "founder_marker", "tip_lost", "ground_a_x", "ground_a_y",
            "ground_b_x", "ground_b_y", "founder_x", "founder_y")  # fmt: skip


def invented_films(
    account: Account,
    cases: int,
    random: np.random.Generator,
    error: float = 1.0,
    amounts: tuple[float, float] = AMOUNTS,
    baselines: bool = True,
) -> list[Film]:
    """Films of invented feet that moved as the account says by an amount between `amounts` (deg or mm).

    `error`: standard error of every marked point along each axis, mm.
    """
    if not 1 <= cases <= MOST_CASES:
        raise BadInput(f"{cases} cases: allowed 1 to {MOST_CASES}")
    if not 0.0 < error <= 10.0:
        raise BadInput(f"a reading error of {error:g} mm: must be above 0 and at most 10 mm")
    if not account.low <= amounts[0] <= amounts[1] <= account.high:
        raise BadInput(
            f"amounts {amounts[0]:g} to {amounts[1]:g}: allowed {account.low:g} to {account.high:g}"
        )
    feet = draw_feet(random, cases)
    drawn = random.uniform(*amounts, size=cases)
    moved = account.displaced(feet, drawn)
    films: list[Film] = []
    for index in range(cases):
        name = f"{account.name}-{index + 1:03d}"
        if baselines:
            films.append(_film(name, "baseline", len(films), feet, index, error, random))
        films.append(_film(name, "case", len(films), moved, index, error, random))
    return films


def _film(
    name: str,
    which: Literal["baseline", "case"],
    row: int,
    feet: dict[str, Array],
    index: int,
    error: float,
    random: np.random.Generator,
) -> Film:
    marked = [landmark for landmark in (*LANDMARKS, "firm_horn") if landmark in feet]
    points = {landmark: feet[landmark][index] + random.normal(0.0, error, 2) for landmark in marked}
    return Film(name, which, row, points, error, True, "firm_horn", False)


def table_text(films: list[Film], remark: str) -> str:
    """The films as an evidence table (CSV), headed by the remark and by the label that the data are invented."""
    columns = [*_COLUMNS, *(column for landmark in LANDMARKS for column in point_columns(landmark))]
    return f"# {INVENTED}\n# {remark}\n{csv_lines([columns, *(_row(film) for film in films)])}"


def _row(film: Film) -> list[str]:
    lost = {True: "yes", False: "no", None: ""}[film.tip_lost]
    ground = ["-100", "0", "150", "0"] if film.has_ground else [""] * 4
    founder = film.points["firm_horn" if film.founder_marker == "firm_horn" else "toe_hairline"]
    cells = [film.case, film.film, f"{film.error:g}", "1", film.founder_marker or "", lost, *ground]
    cells += [f"{value:.3f}" for value in founder] if film.founder_marker else ["", ""]
    for landmark in LANDMARKS:
        xy = film.points.get(landmark)
        cells += ["", ""] if xy is None else [f"{value:.3f}" for value in xy]
    return cells
