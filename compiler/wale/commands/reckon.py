"""`wale reckon`: single questions of arithmetic, without a spec."""

from __future__ import annotations

import json

import click

from wale.commands.report import emit, exit_code, report
from wale.files import World
from wale.problems.problem import Problem
from wale.reckon.questions import QUESTIONS, Question


@click.group(
    "reckon",
    short_help="Answer a quick question at the needles.",
    epilog="""\b
Examples:
  wale reckon count 2/8 Nm
  wale reckon gauge 40 sts = 13.6 cm
  wale reckon spread 12 decreases over 96 sts in the round
""",
)
def reckon() -> None:
    """Answer a quick question at the needles: no spec is needed.

    Each answer shows its formula with your numbers and the source of the rule. `wale reckon QUESTION --help` shows how
    a question is asked.
    """


def _command(question: Question) -> click.Command:
    """Make the sub-command of a question."""

    def run(world: World, words: tuple[str, ...], to_json: bool) -> int:
        return _answer(world, question, words, to_json)

    forms = "\n".join(f"  {form}" for form in question.forms)
    examples = "\n".join(f"  wale reckon {question.name} {example}" for example in question.examples)
    return click.Command(
        question.name,
        callback=click.pass_obj(run),
        params=[
            click.Argument(["words"], nargs=-1, required=True, metavar="WORDS..."),
            click.Option(["--json", "to_json"], is_flag=True, help="Print the answer as JSON on standard output."),
        ],
        help=f"{question.summary}\n\n\b\nAsk in WORDS:\n{forms}",
        short_help=question.summary,
        epilog=f"\b\nExamples:\n{examples}",
        context_settings={"ignore_unknown_options": True},  # a minus belongs to a number, and is answered as such
    )


for _question in QUESTIONS:
    reckon.add_command(_command(_question))


def _answer(world: World, question: Question, words: tuple[str, ...], to_json: bool) -> int:
    from wale.reckon.answer import as_data, in_words
    from wale.reckon.questions import ask
    from wale.refusals import Refused

    unknown = [word for word in words if word.startswith("--")]
    if unknown:
        raise click.NoSuchOption(unknown[0])
    text = " ".join(words)
    answer, problems = None, list[Problem]()
    try:
        answer = ask(question, text)
    except Refused as refused:
        problems.append(refused.problem)
    if to_json:
        from wale.problems.export import as_json

        found = {} if answer is None else as_data(answer)
        data = {"question": question.name, "asked": text, **found, "problems": as_json(problems, {})}
        emit(f"{json.dumps(data, ensure_ascii=False, indent=2)}\n".encode())
    else:
        report(world, problems, {})
        if answer is not None:
            emit(in_words(answer).encode())
    return exit_code(problems)
