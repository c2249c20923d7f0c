"""Files that people write: strict YAML with positions, typed by pydantic, every complaint with line and column."""
