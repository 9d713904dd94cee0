"""From a recording of the bar to the phases of its reps. All of it needs the extra `trace`."""
