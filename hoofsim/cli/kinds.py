"""The kinds of file that `hoofsim check` and `hoofsim schema` know. A new kind is one line here."""

from collections.abc import Mapping

from hoofsim.files.experiment import EXPERIMENT
from hoofsim.files.kinds import Kind
from hoofsim.files.scenario import SCENARIO
from hoofsim.lessons.glossary import GLOSSARY
from hoofsim.lessons.loader import LESSON
from hoofsim.lessons.progress import PROGRESS

KINDS: Mapping[str, Kind] = {kind.name: kind for kind in (SCENARIO, EXPERIMENT, LESSON, GLOSSARY, PROGRESS)}
