"""What one teacher says of walls in words of her own, told plainly; `told_plainly` is the door."""
