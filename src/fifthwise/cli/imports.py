"""Files brought in one after the other: each read, told about and put in its place, or told why not."""

import sys
from collections.abc import Iterator, Sequence
from pathlib import Path

import click

from fifthwise.chart import TextFaults
from fifthwise.cli.import_targets import Target
from fifthwise.errors import FifthwiseError
from fifthwise.exchange import (
    LARGEST_INCOMING,
    NUMBERS,
    FoundSong,
    Incoming,
    Option,
    Question,
    Wish,
    read_incoming,
)
from fifthwise.files import read_bytes

__all__ = ["MOST_TOLD", "Target", "take_in"]

MOST_TOLD = 50  # faults, or things told, of one file


def take_in(files: Sequence[Path], wish: Wish, target: Target) -> bool:
    """Bring files in; what is at fault is told, and the others go on.

    Returns
    -------
    bool
        Whether all of it was brought in.
    """
    sound = True
    with target:
        for file in files:
            try:
                found = read_incoming(_bytes(file), file.name, wish)
                if found.songs:
                    target.put(found.songs, file)
            except FifthwiseError as fault:
                _tell_fault(fault)
                sound = False
                continue
            _tell(found, file)
            sound = sound and not found.failed
    return sound


def _bytes(file: Path) -> bytes:
    """The file; ``-`` is the standard input."""
    if str(file) == "-":
        return sys.stdin.buffer.read(LARGEST_INCOMING + 1)
    return read_bytes(file, LARGEST_INCOMING)


def _tell(found: Incoming, file: Path) -> None:
    for fault in found.failed:
        _tell_fault(fault)
    several = len(found.songs) > 1
    for song in found.songs:
        where = f"{file.name}, '{song.chart.title}'" if several else file.name
        for notice in song.notices[:MOST_TOLD]:
            click.echo(f"notice: {notice}", err=True)
        lines = [*(f"{told}." for told in song.told), *questions_told(song)]
        for line in lines[:MOST_TOLD]:
            click.echo(f"notice: {where}: {line}", err=True)
        if len(lines) > MOST_TOLD:
            click.echo(f"notice: {where}: … and {len(lines) - MOST_TOLD} more", err=True)


def questions_told(song: FoundSong) -> Iterator[str]:
    """What was guessed, and the options that settle it otherwise."""
    for question in song.questions:
        others = [option for option in question.options if option.value != question.chosen]
        if others:
            ways = "; ".join(
                f"{_asked(question, option)} is {_said(option.words, option.consequence)}"
                for option in others[:MOST_TOLD]
            )
            yield f"{question.text} Taken: {_chosen(question)}. Otherwise {ways}."


def _asked(question: Question, option: Option) -> str:
    """The option of the command that settles a question so."""
    if question.name.startswith(NUMBERS):
        return f"--numbers {question.name.removeprefix(NUMBERS)}={option.value}"
    return f"--{question.name} {_quoted(option.value)}"


def _chosen(question: Question) -> str:
    found = next((option for option in question.options if option.value == question.chosen), None)
    return _said(found.words, found.consequence) if found else question.chosen


def _said(words: str, consequence: str) -> str:
    return f"{words} ({consequence})" if consequence else words


def _quoted(value: str) -> str:
    return f"'{value}'" if " " in value else value


def _tell_fault(fault: FifthwiseError) -> None:
    if not isinstance(fault, TextFaults):
        click.echo(str(fault), err=True)
        return
    for each in fault.faults[:MOST_TOLD]:
        click.echo(str(each), err=True)
    if len(fault.faults) > MOST_TOLD:
        click.echo(f"… and {len(fault.faults) - MOST_TOLD} more", err=True)
