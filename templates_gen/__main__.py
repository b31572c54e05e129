"""Run the command line: ``python -m templates_gen``."""

from templates_gen.cli import main

if __name__ == "__main__":
    main(prog_name="templates-gen")
