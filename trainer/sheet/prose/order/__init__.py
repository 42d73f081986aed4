"""The order of walls told in prose: lines to statements, statements to claims of walls; `told` is the door."""
