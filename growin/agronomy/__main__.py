"""The ground floor from the command line: ``python -m growin.agronomy check FILE.json``.

``programme FILE.json`` and ``forecast FILE.json`` print those of one green as JSON.

Exit 0 when all is well, 1 when a row misses or names an unknown calculation, 2 with one
sentence when a file cannot be read or a word is unknown. Only this module reads files.
"""

import argparse
import json
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any, NoReturn

from growin.agronomy.check import NOT_CALCULATED, RowResult, check_rows
from growin.agronomy.forecast import forecast_from_file
from growin.agronomy.impossible import ImpossibleValue
from growin.agronomy.programme import programme_from_file

ALL_WELL, MISSED, REFUSED = 0, 1, 2
COLUMNS = "{:<22} {:<32} {:>30} {:>30}  {}"


class Refused(Exception):
    """What the command line cannot do anything with, as one sentence."""


class _Parser(argparse.ArgumentParser):
    """Refuses with one sentence instead of a page of usage."""

    def error(self, message: str) -> NoReturn:
        raise Refused(f"{message[:1].upper()}{message[1:]}.")


def main(words: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code."""
    try:
        asked = _parser().parse_args(words)
        return asked.command(asked)
    except (Refused, ImpossibleValue) as refused:
        print(refused, file=sys.stderr)
        return REFUSED


def check_command(asked: argparse.Namespace) -> int:
    """Each figure of a sheet beside the published one."""
    results = check_rows(_rows(read_json(asked.file)))
    print(_as_json(results) if asked.json else _as_table(results))
    return ALL_WELL if all(result.passed for result in results) else MISSED


def programme_command(asked: argparse.Namespace) -> int:
    """The programme of one green."""
    return _print_from(programme_from_file, asked)


def forecast_command(asked: argparse.Namespace) -> int:
    """The forecast of one green."""
    return _print_from(forecast_from_file, asked)


def _print_from(worked_out: Callable[[Any], dict], asked: argparse.Namespace) -> int:
    parsed = read_json(asked.file)
    try:
        told = worked_out(parsed)
    except ValueError as refused:
        raise Refused(str(refused)) from None
    except OverflowError:
        raise Refused("A number in the file is too large to be meant.") from None
    print(json.dumps(told, indent=2, ensure_ascii=False))
    return ALL_WELL


#: Commands by name: what runs, what it is for, and its switches. Each takes one FILE.
COMMANDS: dict[str, tuple[Callable[[argparse.Namespace], int], str, tuple[str, ...]]] = {
    "check": (check_command, "print each figure of a check-sheet beside the published one", ("--json",)),
    "programme": (programme_command, "print the programme of one green as JSON", ()),
    "forecast": (forecast_command, "print the forecast of one green as JSON", ()),
}


def read_json(path: str) -> Any:
    """What a JSON file holds.

    Raises Refused, with one sentence, when it cannot be read or is no JSON.
    """
    try:
        return json.loads(Path(path).read_text(encoding="utf-8"), parse_constant=_no_number)
    except OSError as failed:
        raise Refused(f"{path} cannot be read: {failed.strerror or failed}.") from None
    except (ValueError, RecursionError) as failed:
        raise Refused(f"{path} is not JSON: {failed}.") from None


def _no_number(word: str) -> NoReturn:
    raise ValueError(f"{word} is no number")


def _parser() -> argparse.ArgumentParser:
    parser = _Parser(prog="python -m growin.agronomy", description="The trade in numbers.")
    commands = parser.add_subparsers(required=True, metavar="COMMAND", dest="word", parser_class=_Parser)
    for name, (command, words, switches) in COMMANDS.items():
        one = commands.add_parser(name, help=words, description=words)
        one.add_argument("file", metavar="FILE.json")
        for switch in switches:
            one.add_argument(switch, action="store_true")
        one.set_defaults(command=command)
    return parser


def _rows(sheet: Any) -> list[Any]:
    if not isinstance(sheet, list) or not sheet:
        raise Refused("A check-sheet is a list of at least one row.")
    return sheet


def _as_json(results: Sequence[RowResult]) -> str:
    passed = sum(result.passed for result in results)
    whole = {"rows": len(results), "passed": passed, "missed": len(results) - passed}
    return json.dumps(whole | {"results": [result.as_dict() for result in results]}, indent=2)


def _as_table(results: Sequence[RowResult]) -> str:
    lines = [COLUMNS.format("row", "figure", "calculated", "published", "")]
    for result in results:
        lines += _row_lines(result)
    missed = sum(not result.passed for result in results)
    lines.append(f"{len(results)} rows, {len(results) - missed} pass, {missed} miss.")
    return "\n".join(lines)


def _row_lines(result: RowResult) -> list[str]:
    lines = [
        COLUMNS.format(
            result.id,
            figure.key,
            NOT_CALCULATED if figure.calculated is None else _shown(figure.calculated),
            _shown(figure.published),
            "agrees" if figure.agrees else "MISS",
        ).rstrip()
        for figure in result.figures
    ]
    return lines if result.passed else [*lines, f"{result.id}: MISS. {result.why}"]


def _shown(value: Any) -> str:
    if isinstance(value, bool) or not isinstance(value, int | float | list):
        return {True: "yes", False: "no"}.get(value, str(value))
    return " ".join(f"{one:.6g}" for one in value) if isinstance(value, list) else f"{value:.9g}"


if __name__ == "__main__":
    sys.exit(main())
