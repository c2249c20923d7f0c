"""Tables of landmark points of lateral radiographs: read, measured with errors, and weighed against the accounts."""
