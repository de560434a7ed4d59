"""`python -m handsfree` and the `handsfree` command."""

from __future__ import annotations


def main() -> None:
    """Run the command line."""
    from handsfree.cli import run

    raise SystemExit(run())


if __name__ == "__main__":
    main()
