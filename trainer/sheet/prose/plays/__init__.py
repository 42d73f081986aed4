"""The play of a phrased dance, sought over all lines that tell no steps, and told as one line whatever the layout."""
