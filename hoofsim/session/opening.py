"""Files that hold one foot, opened as a sitting: a sitting that was saved, or the foot of a scenario."""

from collections.abc import Callable, Mapping

from hoofsim.files.kinds import kind_word
from hoofsim.files.reader import Document
from hoofsim.files.scenario import SCENARIO, Scenario, load_scenario
from hoofsim.session.commands import ChoosePreset, SetBaseline, SetControl, SetLoad
from hoofsim.session.sandbox_file import SANDBOX, load_sandbox
from hoofsim.session.session import Session


def sitting_of(scenario: Scenario) -> Session:
    """A sitting with the scenario's foot as the baseline, its changes and its load made; not its sweep.

    BadInput for values that are each allowed and together make no foot.
    """
    session = Session()
    session.do(ChoosePreset(scenario.foot.preset))
    session.do_all([SetControl(name, value) for name, value in scenario.foot.set.items()])
    if scenario.foot.set:
        session.do(SetBaseline())
    session.do(SetLoad(scenario.load.case, scenario.load.stance_percent))
    session.do_all([SetControl(name, value) for name, value in scenario.changes.items()])
    return session


READERS: Mapping[str, Callable[[Document], Session]] = {
    SANDBOX.name: load_sandbox,
    SCENARIO.name: lambda document: sitting_of(load_scenario(document)),
}


def load_sitting(document: Document) -> Session:
    """The document as a sitting; BadInput with line and column for the first thing that is wrong."""
    return READERS[kind_word(document, READERS)](document)
