"""What fills the window: one screen a file, on a stack."""
