"""The small set of controls the screens are made of, one a file."""
