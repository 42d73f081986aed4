"""Keys of a sheet: what its short forms and marks stand for, found by how a short form is made, of whatever make."""
