"""Lines without counts that head what stands below them, and words that point back to a section."""
