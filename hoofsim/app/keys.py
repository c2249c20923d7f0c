"""The keys and what they do: the one list that the settings screen shows."""

KEYS: tuple[tuple[str, tuple[tuple[str, str], ...]], ...] = (
    (
        "Everywhere",
        (
            ("Tab, Shift+Tab", "next, previous control"),
            ("Enter, Space", "press, open, turn a switch"),
            ("Arrows", "move a slider or a choice; Page: ten steps; Home, End: the ends"),
            ("Backspace", "slider back to its start value"),
            ("Esc", "back"),
            ("F1", "the cautions"),
            ("F2", "settings"),
            ("F11", "whole screen"),
            ("Ctrl + and Ctrl −", "text larger, smaller; Ctrl 0: as it was"),
            ("Ctrl Q", "leave; the sitting is kept"),
        ),
    ),
    (
        "Sandbox",
        (
            ("Ctrl Z, Ctrl Y", "undo, redo"),
            ("Ctrl S, Ctrl O", "save, open"),
            ("1 to 6", "the groups of controls"),
            ("H, K, B, N", "tools: hand, blade, brush laminae away, brush them back"),
            ("Left, Right", "on the foot: the structure before, the next one"),
            (
                "Enter",
                "on the foot: take hold of the bone pointed at; arrows pull it 1 mm, with Shift 5 mm; "
                "Enter or Esc: let go",
            ),
            ("C", "cut or restore the tendon"),
            ("G", "ghost of the baseline: on the ground, the capsule, the bone, or away"),
            ("A", "a rival account laid over the foot: the next, or none"),
            ("L", "names on the picture"),
            ("M", "set the baseline here; again: the unchanged foot"),
            ("Space", "play the stride, or stop it where it stands"),
            ("S", "slow motion: half, a quarter, a tenth, a twentieth, and life's pace again"),
            ("T", "keep a trial"),
            ("+ and −", "nearer, farther; 0: whole foot; Ctrl arrows: move the view"),
            ("R", "back to the unchanged foot"),
            ("X", "save the picture (PNG and SVG)"),
            ("P", "presenter view"),
        ),
    ),
    (
        "Two feet",
        (
            ("Space", "play both strides, or stop them where they stand"),
            ("S", "slow motion, as in the sandbox"),
            ("Ctrl Z, Ctrl Y", "undo, redo on both"),
            ("+ and −", "nearer, farther; 0: both whole"),
        ),
    ),
    (
        "Presenter view",
        (
            ("P", "presenter view on, off"),
            ("F", "freeze, go on"),
            ("L", "names on the picture"),
            ("D", "pen; Shift D wipes the board"),
            ("1 to 9", "hide or show a layer"),
            ("Page Up, Page Down", "previous, next ready foot (clicker)"),
        ),
    ),
)
