"""``daterun preview``: build, serve on this machine alone, and build again at every change."""

from argparse import ArgumentTypeError, Namespace

from daterun.command.options import Subparsers, add_command, add_reader, say, say_aside


def add(subparsers: Subparsers) -> None:
    parser = add_command(
        subparsers,
        "preview",
        "Build the site, show it in a browser on this machine, and keep it up to date as files change.",
        "daterun preview --for keeper --port 8000",
    )
    add_reader(parser)
    parser.add_argument(
        "--port",
        type=_port,
        default=8437,
        metavar="PORT",
        help="the port on this machine (8437 unless said; the next free one where it is taken)",
    )
    parser.set_defaults(run=run)


def _port(text: str) -> int:
    if not text.isascii() or not text.isdigit() or not 1 <= int(text) <= 65535:
        raise ArgumentTypeError(f'"{text}" is not a port\na number from 1 to 65535')
    return int(text)


def run(args: Namespace) -> int:
    from daterun.command.progress import tell_in_lines
    from daterun.command.report import report_text, summary
    from daterun.command.sources import Sources
    from daterun.preview.loop import Preview
    from daterun.problems import Problem
    from daterun.readers.reader import Reader

    def word(problems: tuple[Problem, ...]) -> str:
        return report_text(problems, Sources(args.folder))

    preview = Preview(args.folder, Reader(args.reader), word, tell_in_lines(say_aside))
    with preview.serving(args.port) as address:
        say(f"Showing the {args.reader} edition at {address}")
        say("It follows your changes. Stop it with Ctrl-C.")
        try:
            for result in preview.builds():
                shown = word(result.problems) if result.has_errors else ""
                say(f"{shown}{summary(result.problems, result.coins)}")
        except KeyboardInterrupt:
            say("")
    return 0
