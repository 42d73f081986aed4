"""Sheets that tell how long their steps last, or which count they have reached, instead of each count."""
