"""What is kept on the disk: the log, the settings, what was shown once."""
