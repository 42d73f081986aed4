"""What is danced otherwise on some walls: its tellings found, laid where they fit the dance, and put into its order."""
