"""Steps that a sheet tells without their counts, counted by what they take and where sections must close."""
