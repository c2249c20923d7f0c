"""Guided lessons: predict, do, watch, compare, explain, carry over. No code in lessons, nothing evaluated.

How a screen, a terminal or a test plays a lesson:

    lesson = read_lesson(path)                          # hoofsim.lessons.loader; BadInput with line and column
    store = Store.default(); kept = store.open(learner, lesson_id(path))   # hoofsim.lessons.store
    progress = kept.progress or begin(lesson, learner, lesson_id(path))    # hoofsim.lessons.runner
    shown = view(lesson, progress)                      # hoofsim.lessons.view: everything to draw, plain values
    progress = advance(lesson, progress, event, seconds)  # pure: a new Progress, never an exception for an event
    progress = store.save(progress)                     # merged with what another open program has saved meanwhile
    text = report(lesson, progress)                     # hoofsim.lessons.report, when progress.finished (or before)

Events (hoofsim.lessons.events): Next, Back, GoTo(step), Answer(text), Sure(1..4), SetControl(control, value), Reset,
Check, Hint, GiveUp. `Answer` takes text for every form: "12 mm", "rises", an option's id or number, "x y" in mm for a
place on the drawing (so a click is `Answer(f"{x} {y}")`), measure names or numbers with spaces between, a sentence.
What an event was answered with is `progress.told`; `progress.length_unit` ("mm" or "in") says how lengths are shown.
`View` holds: kind, title, text, question, choices, asks, controls (free ones with range and present value), rows
(measures before, now, change), plot (see `curves`), look_at (landmarks and measures to light up), wants_position (a
landmark to be placed by click), state and before (`.loaded` is a `LoadedFoot` to draw, `.foot`, `.case`, `.stance_percent`),
can_go_on, finished. Texts are marked text: `**bold**` and `[words](term:id)`, read by `markup.spans`;
`glossary.term(id)` gives the names and the meaning.
"""
