"""Two feet side by side: one difference, one load, one clock."""
