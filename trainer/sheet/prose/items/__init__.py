"""From the words of an item to its readings, of its own words or of those that it points back to."""
