"""The kinds of file that `hoofsim check` and `hoofsim schema` know. A new kind is one line here."""

from collections.abc import Mapping

from hoofsim.files.experiment import EXPERIMENT
from hoofsim.files.kinds import Kind
from hoofsim.files.scenario import SCENARIO
from hoofsim.lessons.glossary import GLOSSARY
from hoofsim.lessons.lint import EXAMINED_LESSON
from hoofsim.lessons.progress import PROGRESS
from hoofsim.session.replay import REPLAY
from hoofsim.session.sandbox_file import SANDBOX

_ALL = (SCENARIO, EXPERIMENT, EXAMINED_LESSON, GLOSSARY, PROGRESS, SANDBOX, REPLAY)
KINDS: Mapping[str, Kind] = {kind.name: kind for kind in _ALL}
