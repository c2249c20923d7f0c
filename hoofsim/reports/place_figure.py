"""Where each case of an evidence table falls: the accounts' shares of the likelihood, case by case."""

from typing import TYPE_CHECKING

from hoofsim.cautions import SHORT_CAUTION
from hoofsim.claims.accounts import ACCOUNTS
from hoofsim.claims.evidence.summary import Evidence
from hoofsim.claims.wording import verdict_word
from hoofsim.drawing.palette import INK
from hoofsim.reports.plot_style import QUIET, account_look, headed, new_figure, shared_style

if TYPE_CHECKING:
    from matplotlib.figure import Figure

MOST_CASES = 40
_HATCHES = ("", "////", "....", "\\\\\\\\", "xxxx", "++++")


def place_figure(evidence: Evidence, warning: str = "") -> "Figure":
    """One bar a case, split by the accounts' shares, with the verdict at its end; `warning` heads the note below."""
    cases = evidence.weighed[:MOST_CASES]
    with shared_style():
        figure, (axes,) = new_figure(13.0, 1.9 + 0.36 * max(len(cases), 5), 1, 1)
        for row, one in enumerate(cases):
            left = 0.0
            for index, (name, standing) in enumerate(one.separation.standings.items()):
                axes.barh(
                    row, standing.likelihood, left=left, height=0.72, color=account_look(name).colour,
                    hatch=_HATCHES[index % len(_HATCHES)], edgecolor="#ffffff", linewidth=0.8,
                    label=ACCOUNTS[name].label if row == 0 else None,
                )  # fmt: skip
                left += standing.likelihood
            word = verdict_word(one.separation)
            told = one.separation.named is not None
            axes.text(
                1.01,
                row,
                word,
                va="center",
                fontsize=9.5,
                fontweight=600 if told else 400,
                color=INK if told else QUIET,
            )
        axes.set_yticks(
            range(len(cases)), [f"{one.case.name}{'*' if one.case.traps else ''}" for one in cases]
        )
        axes.set_ylim(len(cases) - 0.4, -0.6)
        axes.set_xlim(0.0, 1.0)
        axes.set_xlabel("share of the likelihood")
        axes.grid(visible=False)
        axes.spines["left"].set_visible(False)
        axes.tick_params(axis="y", length=0)
        axes.legend(loc="lower left", bbox_to_anchor=(0.0, 1.0), ncols=len(ACCOUNTS), fontsize=10)
        more = len(evidence.weighed) - len(cases)
        rest = f"{more} more cases are not drawn. " if more else ""
        note = (
            f"{warning}{rest}* a trap was noticed for this case. At the right, the verdict: an account is named only "
            f"where it fits, is far likelier than the others, and the foot has its own baseline. {SHORT_CAUTION}"
        )
        headed(figure, f"Which account does each case fit? {evidence.name}", note)
    return figure
