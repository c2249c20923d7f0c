"""What the model says for each published value: one concept a file, one function a quantity, all in the table's units."""
