"""What can be kept, before it is: lists of readings as people paste them, files as they arrive."""
