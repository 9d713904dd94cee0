"""Players of a finished track: a sound device, a WAV file, or nothing at all."""
