"""The words in which teachers tell the order: a letter for the kind of each word or phrase of a sentence."""
