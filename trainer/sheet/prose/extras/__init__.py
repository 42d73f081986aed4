"""Tags, bridges, changes, endings and danced intros, each read from the state in which it is first danced."""
