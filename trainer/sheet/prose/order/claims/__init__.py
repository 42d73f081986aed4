"""What the statements claim of single walls, brought together into order lines."""
