"""A sheet's own ways of writing, each told in the one way that the reader knows; `written_alike` is the door."""
