"""One sitting with a foot: commands, undo by replay, trials kept, and the files that hold them."""
