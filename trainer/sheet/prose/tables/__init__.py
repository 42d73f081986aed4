"""Tables of a sheet: their columns are found, given a role by what their cells are, and told as lines of steps."""
