"""The kinds of file that `hoofsim check` and `hoofsim schema` know. A new kind is one line here."""

from collections.abc import Mapping

from hoofsim.files.experiment import EXPERIMENT
from hoofsim.files.kinds import Kind
from hoofsim.files.scenario import SCENARIO
from hoofsim.lessons.glossary import GLOSSARY
from hoofsim.lessons.lint import EXAMINED_LESSON
from hoofsim.lessons.progress import PROGRESS

KINDS: Mapping[str, Kind] = {kind.name: kind for kind in (SCENARIO, EXPERIMENT, EXAMINED_LESSON, GLOSSARY, PROGRESS)}
