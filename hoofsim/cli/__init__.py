"""The command line: one command a file, each with `add_arguments(parser)` and `run(arguments) -> exit code`."""
