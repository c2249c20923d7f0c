"""What an evidence table leaves behind: measures with errors, each case's place, trends, figures and a report."""

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

import numpy as np

from hoofsim.cautions import SHORT_CAUTION
from hoofsim.claims.accounts import ACCOUNTS
from hoofsim.claims.distributions import NORMAL
from hoofsim.claims.evidence.claim import AGAINST
from hoofsim.claims.evidence.summary import Evidence, in_short, taken_together
from hoofsim.claims.population import sound_points
from hoofsim.claims.wording import verdict, verdict_word
from hoofsim.measures import MEASURES
from hoofsim.plain_text import csv_lines
from hoofsim.reports.claim_figure import Dots, claim_figure
from hoofsim.reports.html_page import html
from hoofsim.reports.page import Bullets, Page, PagePicture, PageTable, Paragraph, Section, closing_sections
from hoofsim.reports.pdf_page import pdf
from hoofsim.reports.place_figure import place_figure
from hoofsim.reports.plot_style import image_bytes
from hoofsim.units import show_number

if TYPE_CHECKING:
    from matplotlib.figure import Figure

SHOWN = ("capsular_rotation", "phalangeal_rotation", "palmar_angle", "tip_to_frog", "frog_to_toe", "sole_depth_tip",
         "founder_distance", "wall_to_bone_distal")  # fmt: skip
TWO_SIDED = NORMAL.inv_cdf(0.975)


def measures_csv(evidence: Evidence) -> str:
    """One row for each case and measure: value on the film, change from its baseline, both with standard errors."""
    rows: list[Sequence[object]] = [
        ["case", "row", "measure", "unit", "value", "error", "change", "change_error"]
    ]
    for one in evidence.weighed:
        names, values, covariance = one.measured.standing
        change = _changes(one.measured.change)
        for at, name in enumerate(names):
            cells = [f"{values[at]:.3f}", f"{np.sqrt(covariance[at, at]):.3f}", *change.get(name, ("", ""))]
            rows.append([one.case.name, one.case.film.row, name, MEASURES[name].unit, *cells])
    return csv_lines(rows)


def _changes(change: tuple[tuple[str, ...], np.ndarray, np.ndarray] | None) -> dict[str, tuple[str, str]]:
    if change is None:
        return {}
    names, values, covariance = change
    return {
        name: (f"{values[at]:.3f}", f"{np.sqrt(covariance[at, at]):.3f}") for at, name in enumerate(names)
    }


def places_csv(evidence: Evidence) -> str:
    """One row for each case and account: share of the likelihood, amount with its error, chance of so bad a fit."""
    head = "case account likelihood amount amount_error unit fit excluded named traps"
    rows: list[Sequence[object]] = [head.split()]
    for one in evidence.weighed:
        for name, standing in one.separation.standings.items():
            numbers = [f"{standing.likelihood:.4f}", f"{standing.amount:.2f}", f"{standing.amount_error:.2f}"]
            words = ["yes" if standing.excluded else "no", "yes" if one.separation.named == name else "no"]
            fit = f"{standing.fit:.4f}"
            traps = " | ".join(one.case.traps)
            rows.append([one.case.name, name, *numbers, ACCOUNTS[name].unit, fit, *words, traps])
    return csv_lines(rows)


def figures(evidence: Evidence, label: str = "") -> dict[str, "Figure"]:
    """Every figure by the ending of its file name; the claim plot only where there are cases to draw in it.

    `label`: a warning that every figure repeats, since figures get parted from their report.
    """
    warning = f"{label} " if label else ""
    drawn = {"places": place_figure(evidence, warning)}
    claim = _claim(evidence, warning)
    return drawn if claim is None else {**drawn, "claim": claim}


def _claim(evidence: Evidence, warning: str) -> "Figure | None":
    trends = {one.measure: one for one in evidence.trends}
    first = trends.get(AGAINST[0])
    if (
        first is None
        or len(first.x) == 0
        or any(trends[name].names != first.names for name in AGAINST if name in trends)
    ):
        return None
    if set(trends) != set(AGAINST):
        return None
    named = {one.case.name: verdict_word(one.separation) for one in evidence.weighed}
    dots = []
    for word in sorted({named[case] for case in first.names}, key=list(named.values()).index):
        mine = np.array([named[case] == word for case in first.names])
        dots.append(
            Dots(
                f"case: {word}",
                first.x[mine],
                {name: one.y[mine] for name, one in trends.items()},
                first.x_error[mine],
                {name: one.y_error[mine] for name, one in trends.items()},
            )
        )
    errors = {name: TWO_SIDED * float(np.median(one.y_error)) for name, one in trends.items()}
    kinds = (
        "The cases are of more than one kind, so no line is drawn through them. " if evidence.mixed else ""
    )
    note = (
        f"{warning}Each mark is one case's change from its own baseline, with standard errors. Curves: the accounts' "
        f"predictions for a sound foot; their bands hold 95 % of reading errors of this table. {kinds}{SHORT_CAUTION}"
    )
    title = "Where do the cases fall among the accounts?"
    lines = () if evidence.mixed else evidence.trends
    return claim_figure(title, sound_points(), dots, errors, note, lines)


def report(evidence: Evidence, label: str, pictures: Mapping[str, bytes]) -> Page:
    """The one-page report. `label`: a warning above everything; `pictures`: PNG by ending, as `figures` names them."""
    words = {
        "claim": "Tip-to-frog and frog-to-toe against capsular rotation, cases over the accounts' curves.",
        "places": "Likelihood of every account for every case.",
    }
    shown = [PagePicture(png, words[ending]) for ending, png in pictures.items()]
    sections = [
        Section(
            "What these cases carry",
            [Paragraph(in_short(evidence), strong=True), Paragraph(taken_together(evidence))],
        ),
        Section(
            "Where they fall",
            [*sorted(shown, key=lambda one: one.words, reverse=True), _case_table(evidence)],
        ),
        Section(
            "Case by case",
            [Bullets([f"{one.case.name}: {verdict(one.separation)}" for one in evidence.weighed])],
        ),
        Section("Traps noticed", [Bullets(_trap_lines(evidence) or ["None."])]),
        Section("Measures", [_measure_table(evidence)]),
        Section(
            "How this was computed",
            [
                Paragraph(
                    "Errors of the marked points are carried through every measure with their correlations. Accounts "
                    "are weighed with Gaussian errors; the unknown amount is averaged over, every amount in an "
                    "account's range being as likely as another beforehand, and so are the accounts. Trends take the "
                    "reading errors of both axes out, and their intervals come from leaving out one case at a time."
                )
            ],
        ),
    ]
    used = [name for name in SHOWN if any(name in one.measured.standing[0] for one in evidence.weighed)]
    return Page(f"Evidence: {evidence.name}", [*sections, *closing_sections(used)], label)


def _case_table(evidence: Evidence) -> PageTable:
    rows = []
    for one in evidence.weighed:
        shares = [f"{100 * standing.likelihood:.0f}" for standing in one.separation.standings.values()]
        rows.append([one.case.name, *shares, verdict_word(one.separation)])
    head = ["case", *(f"{account.label} %" for account in ACCOUNTS.values()), "verdict"]
    caption = "Share of the likelihood of each account, in percent. A verdict needs more than a large share."
    return PageTable(caption, head, rows, tuple(range(1, len(head) - 1)))


def _measure_table(evidence: Evidence) -> PageTable:
    """Changes (or, without a baseline, values in brackets) with standard errors."""
    rows = []
    for one in evidence.weighed:
        names, values, covariance = one.measured.change or one.measured.standing
        own = one.measured.change is not None
        cells = []
        for name in SHOWN:
            if name in names:
                at = names.index(name)
                value = show_number(float(values[at]), MEASURES[name].unit, signed=own)
                cells.append(f"{value} ± {np.sqrt(covariance[at, at]):.1f}" if own else f"({value})")
            else:
                cells.append("")
        rows.append([one.case.name, *cells])
    head = ["case", *(f"{MEASURES[name].label} ({MEASURES[name].unit})" for name in SHOWN)]
    return PageTable(
        "Change from the foot's own baseline with its standard error; in brackets the value itself, where there is "
        "none.",
        head, rows, tuple(range(1, len(head))),
    )  # fmt: skip


def _trap_lines(evidence: Evidence) -> list[str]:
    own = [f"{one.case.name}: {trap}." for one in evidence.weighed for trap in one.case.traps]
    return [*evidence.traps, *own]


def files_of(evidence: Evidence, stem: str, label: str) -> dict[str, bytes | str]:
    """Name -> content of every file that a table leaves behind."""
    drawn = figures(evidence, label)
    pictures = {ending: image_bytes(figure) for ending, figure in drawn.items()}
    page = report(evidence, label, pictures)
    files: dict[str, bytes | str] = {
        f"{stem}_measures.csv": measures_csv(evidence),
        f"{stem}_places.csv": places_csv(evidence),
        f"{stem}_report.html": html(page),
        f"{stem}_report.pdf": pdf(page),
    }
    for ending, figure in drawn.items():
        files[f"{stem}_{ending}.png"] = pictures[ending]
        files[f"{stem}_{ending}.svg"] = image_bytes(figure, "svg")
    return files
