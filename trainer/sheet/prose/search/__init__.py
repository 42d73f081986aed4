"""Reading as a shortest path through weight and facing."""
