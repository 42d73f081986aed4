"""The facts of a sheet's head, in any wording, and the short forms that it explains."""
