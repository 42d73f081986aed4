"""The views of a page, each a guess at what its lines are."""
