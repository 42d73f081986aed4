"""Which marks of a sheet count the dance: every place that may be a count, and the search for those that are."""
