"""Lists of walls, one wall a line or an item: found, understood row by row, and told in plain sentences."""
