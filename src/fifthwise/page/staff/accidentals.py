"""Which notes of a bar bear an accidental: those unlike the key, or unlike the last note on their line."""

from fifthwise.theory import Key, SpelledPitch

__all__ = ["Accidentals"]


class Accidentals:
    """What holds on each line and space, from the key and from the notes of the bar so far."""

    def __init__(self, key: Key) -> None:
        self.signature = key.signature
        self._here: dict[tuple[str, int], int] = {}
        self._before: dict[tuple[str, int], int] = {}

    def next_bar(self, key: Key) -> None:
        """Go on to the next bar, where the key alone holds again."""
        if key.signature == self.signature:
            self._before = {
                line: alter for line, alter in self._here.items() if alter != self._in_key(line[0])
            }
        else:
            self._before = {}
        self._here, self.signature = {}, key.signature

    def needed(self, pitch: SpelledPitch, *, tied: bool = False) -> bool:
        """Whether a note bears its accidental; a note that is tied over does not, nor does it change the bar.

        A note that the bar before had altered bears one as a reminder.
        """
        name, line = pitch.name, (pitch.name.letter, pitch.octave)
        if tied:
            return False
        reminds = line not in self._here and self._before.pop(line, name.alter) != name.alter
        holds = self._here.get(line, self._in_key(name.letter))
        self._here[line] = name.alter
        return holds != name.alter or reminds

    def _in_key(self, letter: str) -> int:
        """How the key alters a letter."""
        place = "FCGDAEB".index(letter)
        return (self.signature - place + 6) // 7
