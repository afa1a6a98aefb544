"""Segno, coda, fine and the jumps to them: which need which."""

from collections.abc import Iterator

from fifthwise.chart.drafts import BarDraft

__all__ = ["navigation_faults"]

# (bar, sign, what, fix)
NavigationFault = tuple[BarDraft, str, str, str]
SIGNS = ("segno", "coda", "to coda", "fine", "ds al coda", "ds al fine", "dc al coda", "dc al fine")


def navigation_faults(bars: list[BarDraft], *, has_form: bool) -> Iterator[NavigationFault]:
    """Find the signs that lead nowhere, stand twice, or contradict a form."""
    places = {sign: [i for i, bar in enumerate(bars) if sign in bar.signs] for sign in SIGNS}
    for sign, found in places.items():
        if has_form and found:
            yield bars[found[0]], sign, f"'[{sign}]' stands beside a form", "Keep the form, or the navigation"
        if sign in ("segno", "coda") and len(found) > 1:
            yield bars[found[1]], sign, f"'[{sign}]' stands twice", "Keep one of them"
    for sign, found in places.items():
        for need, hint in _needs(sign):
            if found and not any(places[other] for other in need):
                shown = " or ".join(f"'[{other}]'" for other in need)
                yield bars[found[0]], sign, f"'[{sign}]' without {shown}", hint
    yield from _order_faults(bars, places)


def _needs(sign: str) -> list[tuple[tuple[str, ...], str]]:
    """The signs that a sign needs, each with how to mend its absence."""
    to_coda_jumps = ("ds al coda", "dc al coda")
    needs: list[tuple[tuple[str, ...], str]] = []
    if sign.startswith("ds"):
        needs.append((("segno",), "Put '[segno]' before the first chord of the bar it goes back to"))
    if sign.endswith("al coda"):
        needs.append((("to coda",), "Put '[to coda]' after the last chord before the jump to the coda"))
        needs.append((("coda",), "Put '[coda]' before the first chord of the coda"))
    if sign.endswith("al fine"):
        needs.append((("fine",), "Put '[fine]' after the song's last chord"))
    if sign == "to coda":
        needs.append((("coda",), "Put '[coda]' before the first chord of the coda"))
    if sign in ("to coda", "coda"):
        needs.append((to_coda_jumps, "Put '[ds al coda]' or '[dc al coda]' where the song goes back"))
    return needs


def _order_faults(bars: list[BarDraft], places: dict[str, list[int]]) -> Iterator[NavigationFault]:
    """Signs that a jump can never meet."""
    for sign in ("ds al coda", "ds al fine", "dc al coda", "dc al fine"):
        for jump in places[sign]:
            target = places["segno"][0] if sign.startswith("ds") and places["segno"] else 0
            wanted = "to coda" if sign.endswith("coda") else "fine"
            met = [i for i in places[wanted] if i >= target]
            if places[wanted] and not met:
                yield bars[jump], sign, f"'[{wanted}]' stands before '[segno]'", "Put it after the segno"
