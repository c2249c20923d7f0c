"""The options by which several commands choose a foot and a load."""

import argparse
from dataclasses import dataclass
from pathlib import Path

from hoofsim.errors import BadInput, nearest
from hoofsim.files.scenario import read_scenario
from hoofsim.foot.parameters import BY_NAME, checked
from hoofsim.foot.presets import PRESETS
from hoofsim.mechanics.loads import CASES
from hoofsim.model import Foot, LoadedFoot
from hoofsim.reports.foot_files import heading


@dataclass(frozen=True)
class ChosenFoot:
    """What the options chose: the loaded foot, the same foot before any change, and words for a heading."""

    loaded: LoadedFoot
    baseline: LoadedFoot
    preset: str
    changes: dict[str, float]
    load: str
    stance_percent: float | None

    @property
    def heading(self) -> str:
        """Such as "Sound foot, heel change 10 mm, standing"."""
        return heading(self.preset, self.changes, self.load, self.stance_percent)


def add_foot_arguments(parser: argparse.ArgumentParser) -> None:
    """--foot, --set, --load and --stance-percent."""
    parser.add_argument(
        "--foot",
        default="sound",
        metavar="PRESET|FILE",
        help="a ready foot (hoofsim list presets), or a scenario file whose foot, changes and load (not its sweep) to take",
    )
    parser.add_argument(
        "--set",
        action="append",
        default=[],
        metavar="NAME=VALUE",
        help="change one control (hoofsim list controls); may be given many times",
    )
    parser.add_argument(
        "--load", metavar="CASE", help="load case: " + ", ".join(CASES) + " (default: standing)"
    )
    parser.add_argument(
        "--stance-percent", type=float, metavar="N", help="moment of the stance, for walk and trot"
    )


def chosen(arguments: argparse.Namespace) -> ChosenFoot:
    """The foot and load that the options name; BadInput for a name or value that cannot be used."""
    preset, own, changes, case, stance = _named_foot(arguments.foot)
    changes |= dict(assignment(text) for text in arguments.set)
    if arguments.load is not None:
        if arguments.load not in CASES:
            raise BadInput(f"unknown load '{arguments.load}': {nearest(arguments.load, CASES)}")
        case, stance = arguments.load, None
    if arguments.stance_percent is not None:
        stance = checked("stance_percent", arguments.stance_percent)
    if stance is not None and not CASES[case].moves:
        gaits = " and ".join(name for name, one in CASES.items() if one.moves)
        raise BadInput(f"--stance-percent belongs to {gaits}; the load is '{case}'")
    unchanged = Foot(preset, **own).as_own()
    baseline = unchanged.load(case, stance)
    loaded = unchanged.change(**changes).load(case, stance) if changes else baseline
    return ChosenFoot(loaded, baseline, preset, own | changes, case, stance)


def assignment(text: str) -> tuple[str, float]:
    """Control and value of "name=value"; BadInput saying what is wrong with it."""
    name, equals, value = text.partition("=")
    name = name.strip()
    if not equals:
        raise BadInput(f"--set {text}: expected NAME=VALUE, such as --set heel_change_mm=10")
    if name not in BY_NAME:
        raise BadInput(f"unknown control '{name}': {nearest(name, BY_NAME)}")
    try:
        number = float(value)
    except ValueError:
        raise BadInput(f"--set {text}: '{value}' is not a number") from None
    return name, checked(name, number)


def _named_foot(name: str) -> tuple[str, dict[str, float], dict[str, float], str, float | None]:
    """Preset, own values, changes, load case and stance of a preset or of a scenario file."""
    if name in PRESETS:
        return name, {}, {}, "standing", None
    if Path(name).suffix in (".yaml", ".yml"):
        scenario = read_scenario(name)
        load = scenario.load
        return (
            scenario.foot.preset,
            dict(scenario.foot.set),
            dict(scenario.changes),
            load.case,
            load.stance_percent,
        )
    raise BadInput(f"no ready foot '{name}': {nearest(name, PRESETS)} (a file must end in .yaml)")
