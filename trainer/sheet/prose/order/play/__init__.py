"""The order of the parts of a phrased dance."""
