"""What states a facing: hours, walls of the room, arrows, margins, each as one token."""
