"""Which lines of a sheet tell the order, of whatever layout."""
