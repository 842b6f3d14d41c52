"""Finds ii-V and ii-V-I in an exported study a second time and compares them with table contexts.

    python3 .ci/contexts.py EXPORT

Written from the text of the tables' schemas and of DEVELOPERS.md, and from nothing of the Java code:
it reads chord symbols as text, with bars for how long four of them are and tonal centres. Only the
standard library is needed. Exit code 1 where any start, end, mode or tonic differs.
"""

import csv
import re
import sys
from collections import Counter, defaultdict
from fractions import Fraction
from pathlib import Path

csv.field_size_limit(1 << 28)


def exact(row, name):
    return Fraction(int(row[name + "_num"]), int(row[name + "_den"]))


def rows(export, table):
    with open(Path(export) / "csv" / f"{table}.csv", newline="", encoding="utf-8-sig") as file:
        yield from csv.DictReader(file)


def quality(row):
    """(what it does, has it a seventh or a sixth), by the pitch classes above the root."""
    if not row["root_pc"] or row["kind"] in ("none", "power", "pedal"):
        return None
    root = int(row["root_pc"])
    tones = {(int(tone) - root) % 12 for tone in re.findall(r"\d+", row["pitch_classes"])}
    core = {(int(tone) - root) % 12 for tone in re.findall(r"\d+", row["core_pitch_classes"])}
    if not tones - {0}:
        return None
    if 4 in core:
        if 11 in core:
            return "major", "seventh"
        if 10 in core or core >= {0, 4, 8}:
            return "dominant", ""
        return "major", "sixth" if 9 in tones else "triad"
    if 3 in core:
        if 6 in core and 7 not in core:
            return ("half", "") if 10 in core else ("diminished", "")
        if 11 in core:
            return "minor", "sixth"
        if 10 in core:
            return "minor", "seventh"
        return "minor", "sixth" if 9 in tones else "triad"
    return ("dominant", "suspended") if core & {2, 5} else None


def joined(symbols):
    chords = []
    for row in symbols:
        found = quality(row)
        start, end = exact(row, "onset"), exact(row, "end")
        if found is None or start == end:
            continue
        chord = dict(root=int(row["root_pc"]), does=found[0], has={found[1]}, start=start, end=end)
        last = chords[-1] if chords else None
        if last and (last["root"], last["does"], last["end"]) == (chord["root"], chord["does"], start):
            last["has"] |= chord["has"]
            last["end"] = end
        else:
            chords.append(chord)
    return chords


def cadences(chords, bar_at, centre_at):
    def after(i):
        return chords[i + 1] if i + 1 < len(chords) and chords[i]["end"] == chords[i + 1]["start"] else None

    def short(chord):
        return chord["end"] - chord["start"] <= 4 * bar_at(chord["start"])

    def centre_is(root, when, mode=None):
        centre = centre_at(when)
        return centre is not None and centre[0] == root and mode in (None, centre[1])

    def two_five(i):
        two, five = chords[i], after(i)
        if five is None or (five["root"] - two["root"]) % 12 != 5:
            return False
        ii = two["does"] == "half" or two["does"] == "minor" and two["has"] & {"triad", "seventh"}
        v = five["does"] == "dominant" or (five["does"] == "major" and five["has"] == {"triad"}
                                           and centre_is((five["root"] + 5) % 12, five["start"]))
        return bool(ii) and v and short(two) and short(five)

    def tonic(i):
        chord = chords[i]
        if chord["does"] == "major":
            return "major"
        if chord["does"] == "minor":
            goes_on = two_five(i) and "seventh" in chord["has"] and "sixth" not in chord["has"]
            return "minor" if not goes_on or centre_is(chord["root"], chord["start"]) else None
        only_suspended = chord["has"] == {"suspended"}
        if chord["does"] == "dominant" and not only_suspended and centre_is(chord["root"], chord["start"], "blues"):
            return "blues"
        return None

    for i in range(len(chords)):
        if not two_five(i):
            continue
        one = after(i + 1)
        mode = None
        if one and (one["root"] - chords[i + 1]["root"]) % 12 == 5:
            mode = tonic(i + 2)
        root = (chords[i + 1]["root"] + 5) % 12
        if mode:
            end = min(one["end"], one["start"] + 4 * bar_at(one["start"]))
            yield "ii-V-I", mode, root, chords[i]["start"], end
        else:
            mode = "minor" if chords[i]["does"] == "half" else "major"
            yield "ii-V", mode, root, chords[i]["start"], chords[i + 1]["end"]


def bar_length(row):
    match = re.fullmatch(r"(\d+)/(\d+)", row["metre"])
    return Fraction(4 * int(match[1]), int(match[2])) if match else exact(row, "length")


def at(starts, when):
    found = None
    for start, value in starts:
        if start > when:
            break
        found = value
    return starts[0][1] if found is None and starts else found


def main(export):
    solos = {row["solo_id"] for row in rows(export, "solos")}
    symbols, bars, centres = defaultdict(list), defaultdict(list), defaultdict(list)
    for row in rows(export, "chords"):
        symbols[row["solo_id"]].append(row)
    for row in rows(export, "bars"):
        bars[row["solo_id"]].append((exact(row, "onset"), bar_length(row)))
    for row in rows(export, "tonal_centres"):
        centre = (int(row["tonic_pc"]), row["mode"]) if row["tonic_pc"] else None
        centres[row["solo_id"]].append((exact(row, "onset"), centre))
    mine, theirs = Counter(), Counter()
    for solo in sorted(solos):
        chords = joined(sorted(symbols[solo], key=lambda row: int(row["chord_index"])))
        for cadence in cadences(
                chords, lambda when: at(bars[solo], when), lambda when: at(centres[solo], when)):
            mine[(solo, *cadence)] += 1
    for row in rows(export, "contexts"):
        if row["kind"] in ("ii-V", "ii-V-I"):
            key = (row["solo_id"], row["kind"], row["mode"], int(row["tonic_pc"]),
                   exact(row, "onset"), exact(row, "end"))
            theirs[key] += 1
    for key in sorted((mine - theirs).keys() | (theirs - mine).keys(), key=str)[:20]:
        print("DIFFERS:", *key, "here", mine[key], "in the table", theirs[key])
    counts = Counter((key[1], key[2]) for key in theirs.elements())
    for kind in sorted(counts):
        print(*kind, counts[kind])
    if mine != theirs:
        return 1
    print(f"contexts.py: {sum(mine.values())} ii-V and ii-V-I of {len(solos)} solos agree")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
