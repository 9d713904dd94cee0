"""``python -m tempo_coach``."""

from tempo_coach.cli import main

if __name__ == "__main__":
    main()
