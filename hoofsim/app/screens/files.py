"""Opening and saving: a path to type, and what lies in the folder to choose from."""

from pathlib import Path
from typing import TYPE_CHECKING

from hoofsim.app.exports import EXPORTS, SITTING, missing_words
from hoofsim.app.screens.bar import HEIGHT, Bar
from hoofsim.app.screens.card_screen import CardScreen
from hoofsim.app.theme import Theme
from hoofsim.app.widgets.base import Rect, Widget
from hoofsim.app.widgets.button import Button
from hoofsim.app.widgets.dropdown import Choice, DropDown
from hoofsim.app.widgets.label import Label
from hoofsim.app.widgets.layout import inset, split_right, split_top
from hoofsim.app.widgets.scroll import ScrollPanel
from hoofsim.app.widgets.text_field import TextField

if TYPE_CHECKING:
    from hoofsim.app.application import Application

ENDINGS = (".yaml", ".yml")
MOST_LISTED = 300
DEFAULT_NAME = "my-foot.yaml"
KINDS = (
    Choice(SITTING, "The sitting, to go on with"),
    *(Choice(e.ending, e.words) for e in EXPORTS.values()),
)


class FileScreen(CardScreen):
    """One screen for both: `saving` decides what the button and Enter do."""

    name = "files"
    title = "Open a file"

    def __init__(self, app: "Application", saving: bool = False, folder: Path | None = None) -> None:
        super().__init__(app)
        self.saving = saving
        self.folder = (folder or (app.file.parent if app.file else Path.cwd())).absolute()
        self.bar = Bar("Save this sitting" if saving else self.title, app.back)
        start = app.file or self.folder / DEFAULT_NAME
        self.path = TextField("File", str(start) if saving else "", self._go)
        self.button = Button(
            "Save" if saving else "Open",
            lambda: self._go(self.path.text),
            icon="save" if saving else "open",
            kind="main",
        )
        self.kind = DropDown("What to save", KINDS, SITTING, self._set_kind, "the ending of the name decides")
        self.hint = Label(missing_words(), "small", "quiet")
        self.kind.visible, self.hint.visible = saving, saving and bool(missing_words())
        self.panel = ScrollPanel("folder", [], gap=0.25)
        self.where = Label("", "small", "quiet")
        self.widgets = [self.bar, self.path, self.button, self.kind, self.hint, self.where, self.panel]
        self._list()

    def entered(self) -> None:
        """The path has the keyboard."""
        self.set_focus(self.path)

    def _set_kind(self, ending: str) -> None:
        """The name gets another ending."""
        name = Path(self.path.text.strip() or DEFAULT_NAME)
        known = name.suffix.lower() in (*ENDINGS, *EXPORTS)
        self.path.text = str(name.with_suffix(ending) if known else name.with_name(name.name + ending))
        self.path.caret = len(self.path.text)

    def _list(self) -> None:
        """Buttons for the folder above, the folders and the YAML files here."""
        try:
            entries = sorted(self.folder.iterdir(), key=lambda entry: (entry.is_file(), entry.name.lower()))
        except OSError as problem:
            self.app.say(f"{self.folder}: cannot be listed: {problem.strerror or problem}")
            entries = []
        shown = [e for e in entries if not e.name.startswith(".") and (e.is_dir() or e.suffix in ENDINGS)]
        up = Button("Folder above", lambda: self._enter(self.folder.parent), icon="back", kind="entry")
        listed: list[Widget] = [
            Button(
                entry.name + ("/" if entry.is_dir() else ""),
                lambda entry=entry: self._pick(entry),  # type: ignore[misc]
                icon="open" if entry.is_dir() else "foot",
                kind="entry",
            )
            for entry in shown[:MOST_LISTED]
        ]
        self.panel.items = [up, *listed]
        self.where.text = str(self.folder)
        if self.size != (0, 0):
            self.place()

    def _enter(self, folder: Path) -> None:
        self.folder = folder
        self.panel.offset = 0
        self._list()
        self.drop_lost_focus()

    def _pick(self, entry: Path) -> None:
        if entry.is_dir():
            self._enter(entry)
        elif self.saving:
            self.path.text = str(entry)
            self.path.caret = len(self.path.text)
            self.set_focus(self.path)
        else:
            self.app.open_file(entry)

    def _go(self, text: str) -> None:
        if not text.strip():
            self.app.say("Type the name of a file, or choose one below.")
            return
        try:
            path = Path(text.strip()).expanduser()
            is_folder = (self.folder / path).is_dir()
        except (OSError, RuntimeError, ValueError) as problem:
            self.app.say(f"'{text.strip()[:60]}' is no name of a file here: {problem}")
            return
        path = path if path.is_absolute() else self.folder / path
        if self.saving:
            if path.suffix.lower() in EXPORTS:
                saved = self.app.export(path)
            else:
                path = path if path.suffix in ENDINGS else path.with_name(path.name + SITTING)
                saved = self.app.save_sandbox_file(path)
            if saved:
                self.app.back()
        elif is_folder:
            self._enter(path)
        else:
            self.app.open_file(path)

    def layout(self, theme: Theme, window: Rect) -> None:
        """Path and button in a row, the folder under them."""
        bar, rest = split_top(window, theme.px(HEIGHT))
        self.bar.place(bar, theme)
        wide = min(rest.w - theme.px(2), theme.px(56))
        card = Rect(rest.centerx - wide // 2, rest.y + theme.px(1), wide, rest.h - theme.px(2))
        self.cards = (card,)
        inner = inset(card, theme.px(1.2), theme.px(1.0))
        row, below = split_top(inner, theme.px(3.6), theme.px(0.8))
        field, button = split_right(row, self.button.width(theme), theme.px(0.8))
        self.path.place(field, theme)
        self.button.place(Rect(button.x, field.bottom - theme.px(2.2), button.w, theme.px(2.2)), theme)
        for widget in (self.kind, self.hint):
            if widget.visible:
                place, below = split_top(below, widget.height_for(inner.w, theme), theme.px(0.6))
                widget.place(place, theme)
        where, below = split_top(below, self.where.height_for(inner.w, theme), theme.px(0.4))
        self.where.place(where, theme)
        self.panel.place(below, theme)
