"""The patterns of what is said of the order, over the letters of a sentence, and what they make of it."""
