"""`python -m handsfree` and the `handsfree` command."""

from __future__ import annotations

import sys


def main() -> None:
    """Run the command line. A Python that cannot is told so: pip refuses it, a clone does not."""
    if sys.version_info < (3, 11):  # noqa: UP036
        this = ".".join(map(str, sys.version_info[:2]))
        print(f"handsfree needs Python 3.11 or later; this is {this}. Install a newer one.", file=sys.stderr)
        raise SystemExit(3)
    from handsfree.errors import MissingPart

    try:
        from handsfree.cli import run
        from handsfree.cli.process import collect_seldom, end_in_order, end_undisturbed, mend_streams
    except MissingPart as wrong:  # the words of another language are read before all else
        print(" ".join(str(wrong).split()), file=sys.stderr)
        raise SystemExit(wrong.exit_status) from None

    collect_seldom()
    mend_streams()
    end_in_order()
    status = run()
    end_undisturbed()
    raise SystemExit(status)


if __name__ == "__main__":
    main()
