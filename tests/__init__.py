"""The tests, as a package so that an installed library's own `tests` is never found in their place."""
