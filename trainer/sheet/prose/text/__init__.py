"""Physical lines to tokens, without decoration."""
