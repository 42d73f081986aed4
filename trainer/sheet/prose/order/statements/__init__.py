"""The phrases of a sentence put together: on these walls, at this place, these things are done."""
