"""From results to pictures: display lists of primitives in mm with roles, and backends that draw them."""
