"""Run the command line with `python -m gamutwright`."""

from gamutwright.cli import main

if __name__ == "__main__":
    main()
