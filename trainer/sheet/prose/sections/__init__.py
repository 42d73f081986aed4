"""From a path to written sections, and what only the words can tell of them."""
