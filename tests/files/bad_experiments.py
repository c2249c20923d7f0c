"""Experiments that must be refused: a name, the file's content, and words that the refusal must hold."""

GOOD = """\
hoofsim: 1
kind: experiment
title: Tendon and laminae
question: Which of the two moves the bone?
design: factorial
factors:
  - name: tendon
    usual: whole
    levels:
      - name: cut
        set: {tendon_cut: 1}
      - name: whole
      - name: doubled
        set: {tendon_pull_percent: 200}
  - control: laminae_percent
    values: [100, 10]
  - name: load
    levels:
      - name: standing
        load: standing
      - name: trot
        load: trot
measures: [palmar_angle, tip_to_frog]
claim_plot: true
"""


def _with(old: str, new: str) -> str:
    """The good experiment with one piece replaced, which must be there."""
    assert old in GOOD, old
    return GOOD.replace(old, new)


BAD: dict[str, tuple[str, str]] = {
    "scenario's kind": (_with("kind: experiment", "kind: scenario"), "unknown kind 'scenario'"),
    "unknown design": (_with("design: factorial", "design: factoral"), "did you mean 'factorial'"),
    "no factors": (GOOD.split("factors:")[0] + "factors: []\nmeasures: [palmar_angle]\n", "factors"),
    "unknown measure": (_with("tip_to_frog", "tip_to_fog"), "did you mean 'tip_to_frog'"),
    "measure twice": (_with("palmar_angle, tip", "palmar_angle, palmar_angle, tip"), "given twice"),
    "no measures": (_with("[palmar_angle, tip_to_frog]", "[]"), "measures"),
    "unknown control": (_with("laminae_percent", "laminae_procent"), "did you mean 'laminae_percent'"),
    "unknown control in a level": (_with("tendon_cut: 1", "tendon_cutt: 1"), "did you mean 'tendon_cut'"),
    "level out of range": (_with("[100, 10]", "[100, 110]"), "allowed 0 to 100"),
    "unknown load": (_with("load: trot", "load: trott"), "did you mean 'trot'"),
    "one level": (_with("[100, 10]", "[100]"), "at least two levels"),
    "same level twice": (_with("[100, 10]", "[100, 100]"), "same name"),
    "same word twice": (_with("- name: whole", "- name: cut"), "same name"),
    "unknown usual": (_with("usual: whole", "usual: hole"), "did you mean 'whole'"),
    "control and levels": (
        _with("  - name: tendon\n", "  - name: tendon\n    control: wedge_deg\n"), "either 'control'"
    ),
    "neither control nor levels": (
        _with("  - control: laminae_percent\n    values: [100, 10]", "  - name: x"), "either"
    ),
    "numbers beside levels": (_with("    usual: whole\n", "    steps: 3\n"), "leave out"),
    "half a range": (_with("values: [100, 10]", "from: 0\n    to: 100"), "'from', 'to' and 'steps'"),
    "levels without a name": (_with("  - name: tendon\n    usual", "  - usual"), "needs a 'name'"),
    "two factors of one name": (_with("name: load\n", "name: tendon\n"), "two factors are called 'tendon'"),
    "two factors set one control": (
        _with("laminae_percent", "tendon_cut").replace("[100, 10]", "[0, 1]"), "already set"
    ),
    "grid of words": (_with("design: factorial", "design: grid"), "exactly two factors"),
    "too many runs": (
        _with("values: [100, 10]", "from: 0\n    to: 100\n    steps: 1001").replace(
            "  - name: load", "  - control: heel_change_mm\n    from: 0\n    to: 10\n    steps: 101\n  - name: load"
        ),
        "runs in all; at most",
    ),
    "unknown key": (_with("claim_plot", "claim_plott"), "did you mean 'claim_plot'"),
    "truth as a word": (_with("claim_plot: true", "claim_plot: yes"), "expected true or false"),
    "stance in the foot": (
        _with("design:", "foot:\n  set: {stance_percent: 50}\ndesign:"), "set the moment of the stance under 'load'"
    ),
}  # fmt: skip
