"""Computes every statistic of an exported study a second time and compares it with the tables.

    python3 .ci/recompute.py EXPORT

Written from the texts of schemas/statistics.json, and from nothing of the Java code: it reads the
columns of notes, chords, phrases, bars, tonal_centres and solos that say what was played, never those
that say what was concluded (degrees, roles, landings). A statistic agrees when every value of every
solo and of every phrase, its n, and whether it has a value at all are the same to 1e-9. Only the
standard library is needed. Exit code 1 where anything differs or a statistic is not computed here.

What the tables do not hold cannot be checked: tempo changes inside a solo (figures in seconds are left
out there), and stretches that are neither note nor rest, such as slashes (those files will differ).
"""

import bisect
import csv
import json
import math
import re
import statistics as numbers
import sys
from collections import Counter, defaultdict
from fractions import Fraction
from pathlib import Path

csv.field_size_limit(1 << 28)
TOLERANCE = 1e-9
HALF = Fraction(1, 2)

MAJOR = {0, 2, 4, 5, 7, 9, 11}
MINOR = {0, 2, 3, 5, 7, 8, 9, 10, 11}  # natural, harmonic and melodic together
MIXOLYDIAN = {0, 2, 4, 5, 7, 9, 10}
DORIAN = {0, 2, 3, 5, 7, 9, 10}
LYDIAN = {0, 2, 4, 6, 7, 9, 11}
BLUES = MIXOLYDIAN | {3, 6}
# The scales by their words in table tonal_centres.
SCALES = {
    "major": MAJOR, "minor": MINOR, "blues": BLUES, "dorian": DORIAN, "mixolydian": MIXOLYDIAN,
    "lydian": LYDIAN, "phrygian": {0, 1, 3, 5, 7, 8, 10}, "locrian": {0, 1, 3, 5, 6, 8, 10},
    "natural_minor": {0, 2, 3, 5, 7, 8, 10}, "harmonic_minor": {0, 2, 3, 5, 7, 8, 11},
    "melodic_minor": {0, 2, 3, 5, 7, 9, 11},
}

NOTE_VALUES = {
    "whole": Fraction(4), "dotted_half": Fraction(3), "half": Fraction(2),
    "dotted_quarter": Fraction(3, 2), "quarter": Fraction(1), "quarter_triplet": Fraction(2, 3),
    "dotted_eighth": Fraction(3, 4), "eighth": HALF, "eighth_triplet": Fraction(1, 3),
    "sixteenth": Fraction(1, 4), "sixteenth_triplet": Fraction(1, 6),
    "thirty_second": Fraction(1, 8),
}
VALUE_OF_LENGTH = {length: name for name, length in NOTE_VALUES.items()}


def exact(row, name):
    return Fraction(int(row[name + "_num"]), int(row[name + "_den"]))


def whole(text):
    return int(text) if text else None


class Metre:
    """A time signature as the table has it: 4/4, 3+2/8, 2/4+3/8."""

    def __init__(self, text):
        self.free = "/" not in text
        if self.free:
            return
        self.bar = Fraction(0)
        for group in re.findall(r"([\d+]+)/(\d+)", text):
            self.bar += Fraction(4 * sum(int(beat) for beat in group[0].strip("+").split("+")),
                                 int(group[1]))
        plain = re.fullmatch(r"(\d+)/(\d+)", text)
        kind = max(int(group[1]) for group in re.findall(r"([\d+]+)/(\d+)", text))
        compound = plain is not None and kind >= 8 and int(plain[1]) in range(6, 99, 3)
        self.beat = Fraction(12 if compound else 4, kind)


class Note:
    def __init__(self, row):
        self.index = int(row["note_index"])
        self.bar_index = int(row["bar_index"])
        self.onset, self.length = exact(row, "onset"), exact(row, "length")
        self.end = self.onset + self.length
        self.position = exact(row, "position")
        self.pitch = int(row["midi_concert"])
        self.phrase = int(row["phrase_index"])


class Chord:
    def __init__(self, row):
        self.onset, self.end = exact(row, "onset"), exact(row, "end")
        self.root = whole(row["root_pc"])
        self.tones = json.loads(row["pitch_classes"])
        self.core = json.loads(row["core_pitch_classes"])
        self.kind = row["kind"]
        self.sounds = row["kind"] != "none"

    def known(self):
        return bool(self.tones)

    def has(self, note):
        return note.pitch % 12 in self.tones

    def has_core(self, note):
        return note.pitch % 12 in self.core

    def step(self, note):
        """1, 3, 5 or 7 for a core chord tone, else None."""
        if not self.has_core(note):
            return None
        above = (note.pitch - self.root) % 12
        if above == 0:
            return 1
        if above in (3, 4) or (self.kind.startswith("suspended") and above in (2, 5)):
            return 3
        return 5 if above in (6, 7, 8) else 7

    def guides(self):
        """Pitch classes of the guide tones."""
        wanted = set()
        for tone in self.core:
            above = (tone - self.root) % 12
            if above in (3, 4, 9, 10, 11) or (self.kind.startswith("suspended") and above == 5):
                wanted.add(tone)
        suspended_triad = self.kind.startswith("suspended") and len(wanted) < 2
        return set() if suspended_triad else wanted

    def third(self):
        for tone in self.core:
            if (tone - self.root) % 12 in (3, 4):
                return tone
        return None

    def seventh(self):
        """The minor, major or diminished seventh above the root; no sixth of a sixth chord."""
        for tone in self.core:
            above = (tone - self.root) % 12
            if above in (10, 11) or (above == 9 and self.kind == "diminished-seventh"):
                return tone
        return None

    def differs_from(self, other):
        return (self.root != other.root or set(self.tones) != set(other.tones)
                or not self.known() and self.kind != other.kind)


class Stretch:
    """A stretch with one tonal centre."""

    def __init__(self, row):
        self.onset, self.end = exact(row, "onset"), exact(row, "end")
        self.tonic, self.mode = whole(row["tonic_pc"]), row["mode"]
        self.scale_name = row["scale"]


class Bar:
    def __init__(self, row):
        self.onset, self.length = exact(row, "onset"), exact(row, "length")
        self.metre = Metre(row["metre"])
        self.offset = exact(row, "metrical_offset")
        self.pickup = row["pickup"] == "TRUE"
        self.chorus, self.in_chorus = whole(row["chorus"]), whole(row["bar_in_chorus"])
        self.in_section = whole(row["bar_in_section"])


class Phrase:
    def __init__(self, row):
        self.index = int(row["phrase_index"])
        self.first, self.last = int(row["first_note_index"]), int(row["last_note_index"])
        self.tempo = float(row["tempo_qpm"]) if row["tempo_qpm"] else None


class Solo:
    def __init__(self, row):
        self.row = row
        self.tempo = float(row["tempo_qpm"]) if row["tempo_qpm"] else None
        self.notes, self.chords, self.stretches, self.bars, self.phrases = [], [], [], [], []

    def settle(self):
        """What the statistics ask of a note: its metre, its chord, its centre."""
        self.bar_onsets = [bar.onset for bar in self.bars]
        chord_onsets = [chord.onset for chord in self.chords]
        stretch_onsets = [stretch.onset for stretch in self.stretches]
        for note in self.notes:
            note.metre = self.bars[note.bar_index].metre
            note.beat = None if note.metre.free else note.position / note.metre.beat
            note.on_beat = note.beat is not None and note.beat.denominator == 1
            chord = self.chord_heard(note, chord_onsets)
            note.chord = chord
            note.verdict = chord is not None and chord.known()
            note.core = note.verdict and chord.has_core(note)
            # An anticipated note is judged by the centre of the chord that it sounds into.
            heard = chord.onset if chord is not None and chord.onset > note.onset else note.onset
            stretch = self.stretch_at(heard, stretch_onsets)
            note.tonic = None if stretch is None else stretch.tonic
            note.scale = self.scale_of(stretch, chord)
            note.inside = None if note.scale is None else note.pitch % 12 in note.scale
            narrow = note.scale
            if stretch is not None and stretch.scale_name:
                narrow = {(tone + stretch.tonic) % 12 for tone in SCALES[stretch.scale_name]}
            note.key_scale = narrow
            note.in_key = narrow is not None and (
                note.pitch % 12 in narrow or note.verdict and chord.has(note))
        self.lines = [self.notes[phrase.first:phrase.last + 1] for phrase in self.phrases]
        for line in self.lines:
            for place, note in enumerate(line):
                note.place, note.line = place, line
        self.find_outside()
        self.find_landings()

    def chord_heard(self, note, onsets):
        """The chord at the onset; a note that starts within the last half beat of a chord and sounds
        into a different chord that follows at once is judged by that one."""
        place = bisect.bisect_right(onsets, note.onset) - 1
        here = self.chords[place] if place >= 0 and note.onset < self.chords[place].end else None
        if here is None or not here.sounds:
            return None
        if place + 1 < len(self.chords) and here.end == self.chords[place + 1].onset:
            following = self.chords[place + 1]
            beat = Fraction(1) if note.metre.free else note.metre.beat
            if (following.sounds and following.differs_from(here) and note.end > following.onset
                    and following.onset - note.onset <= beat / 2):
                return following
        return here

    def stretch_at(self, time, onsets):
        place = bisect.bisect_right(onsets, time) - 1
        if place < 0 or self.stretches[place].tonic is None:
            return None
        return self.stretches[place]

    def scale_of(self, stretch, chord):
        """Pitch classes of the scale of a centre."""
        if stretch is None:
            return None
        scale = {"major": MAJOR, "minor": MINOR, "blues": BLUES, "modal": DORIAN}[stretch.mode]
        if stretch.mode == "modal" and chord is not None and chord.root == stretch.tonic:
            above = {(tone - chord.root) % 12 for tone in chord.core}
            suspended = not above & {3, 4} and above & {2, 5}
            if suspended or 4 in above and 10 in above:
                scale = MIXOLYDIAN
            elif 4 in above:
                scale = LYDIAN
        return {(tone + stretch.tonic) % 12 for tone in scale}

    def find_outside(self):
        for note in self.notes:
            note.outside = (note.verdict and note.inside is not None
                            and not note.chord.has(note) and not note.inside)
        for line in self.lines:
            explained = {}
            for place in reversed(range(len(line))):
                note = line[place]

                def settled(later):
                    return not later.outside or explained[id(later)]

                good = False
                if note.outside and place + 1 < len(line):
                    after = line[place + 1]
                    good = abs(after.pitch - note.pitch) in (1, 2) and settled(after)
                    if not good and place + 2 < len(line):
                        goal = line[place + 2]
                        low = note.pitch - goal.pitch
                        high = after.pitch - goal.pitch
                        good = low * high < 0 and abs(low) <= 2 and abs(high) <= 2 and settled(goal)
                explained[id(note)] = good
                note.unexplained = note.outside and not good

    def find_landings(self):
        arrivals = set()
        note_onsets = [note.onset for note in self.notes]
        changed = [chord for place, chord in enumerate(self.chords)
                   if place > 0 and chord.sounds and (
                       not self.chords[place - 1].sounds
                       or chord.differs_from(self.chords[place - 1]))]
        for chord in changed:
            place = bisect.bisect_left(note_onsets, chord.onset)
            if place < len(self.notes) and self.notes[place].onset < chord.end:
                note = self.notes[place]
                if note.on_beat:
                    arrivals.add(note.index)
        first = {}
        for note in self.notes:
            first.setdefault(id(note.chord), note)
        self.first_under = [(chord, first[id(chord)]) for chord in changed if id(chord) in first]
        self.landings = []
        for line in self.lines:
            for place, note in enumerate(line):
                kinds = []
                beat = Fraction(1) if note.metre.free else note.metre.beat
                after = line[place + 1] if place + 1 < len(line) else None
                before = line[place - 1] if place else None
                if after is None:
                    kinds.append("phrase-end")
                elif after.onset - note.end >= beat / 2:
                    kinds.append("before-rest")
                longer = all(other is None or note.length > other.length for other in (before, after))
                if note.length >= beat * 3 / 2 and longer:
                    kinds.append("held")
                if note.index in arrivals and before is not None:
                    kinds.append("chord-arrival")
                note.kinds = kinds
                if kinds:
                    self.landings.append(note)

    def spans(self, start, end):
        """Stretches of one metre between two times: (metre, length)."""
        place = max(0, bisect.bisect_right(self.bar_onsets, start) - 1)
        while place < len(self.bars) and self.bars[place].onset < end:
            last = place + 1 == len(self.bars)
            until = end if last else min(end, self.bars[place + 1].onset)
            length = until - max(start, self.bars[place].onset)
            if length > 0:
                yield self.bars[place].metre, length
            place += 1

    def after(self, note):
        return self.notes[note.index + 1] if note.index + 1 < len(self.notes) else None

    def within_a_bar(self, chord, note):
        """Whether a note starts less than a bar after a chord does."""
        metre = self.bars[bisect.bisect_right(self.bar_onsets, chord.onset) - 1].metre
        return metre.free or note.onset - chord.onset < metre.bar

    def time(self, start, end, unit):
        """Bars or beats between two times; None where part of it has no metre."""
        total = Fraction(0)
        for metre, length in self.spans(start, end):
            if metre.free:
                return None
            total += length / (metre.bar if unit == "bars" else metre.beat)
        return total


def share(hits, of):
    """value and n of a share of a list."""
    of = list(of)
    return (sum(1 for one in of if hits(one)) / len(of) if of else None, len(of))


def entropy(counts):
    total = sum(counts.values())
    return sum(-count / total * math.log2(count / total) for count in counts.values() if count)


def median(values):
    values = [value for value in values if value is not None]
    return (float(numbers.median(values)) if values else None, len(values))


def periods(metre):
    """Lengths of the metrical levels, from the bar down to the sixteenth of a simple beat."""
    levels = [metre.bar]
    beats = metre.bar / metre.beat
    while beats.denominator == 1 and beats % 2 == 0 and beats > 2:
        beats /= 2
        levels.append(beats * metre.beat)
    if metre.bar > metre.beat:
        levels.append(metre.beat)
    ternary = metre.beat.numerator == 3
    return levels + [metre.beat / (3 if ternary else 2), metre.beat / (6 if ternary else 4)]


def level(place, metre):
    """Metrical weight of a place in its bar: 0 at the bar line, one less at each finer level."""
    levels = periods(metre)
    for weight, period in enumerate(levels):
        if (place / period).denominator == 1:
            return -weight
    simple = metre.beat.numerator != 3
    if simple and (place / (metre.beat / 3)).denominator == 1:
        return 2 - len(levels)
    return -len(levels)


class Statistics:
    """All statistics over some phrases of a solo: all of them, or one."""

    def __init__(self, solo, phrases):
        self.solo, self.phrases = solo, phrases
        self.lines = [solo.lines[phrase.index] for phrase in phrases]
        self.notes = [note for line in self.lines for note in line]
        self.whole = len(phrases) == len(solo.phrases)
        self.of = {}
        self.harmony()
        self.movement()
        self.phrasing()
        self.line()

    def harmony(self):
        of, solo, notes = self.of, self.solo, self.notes
        judged = [note for note in notes if note.verdict]
        core = lambda note: note.core
        within = {phrase.index for phrase in self.phrases}
        landings = [note for note in solo.landings if note.phrase in within]
        settled = [note for note in landings if note.verdict]
        of["landing_chord_tone_share"] = share(
            core, [note for note in settled if note.kinds != ["chord-arrival"]])
        for kind in ("before-rest", "held", "chord-arrival"):
            key = kind.replace("-", "_") + "_chord_tone_share"
            of[key] = share(core, [note for note in settled if kind in note.kinds])
        ends = [line[-1] for line in self.lines if line[-1].verdict]
        of["phrase_ends_on_chord_tone"] = share(core, ends)
        for step, name in ((1, "root"), (3, "third"), (5, "fifth"), (7, "seventh"), (None, "other")):
            of["phrase_ends_on_" + name] = share(lambda note: note.chord.step(note) == step, ends)
        of["phrase_ends_on_guide_tone"] = share(
            lambda note: note.pitch % 12 in note.chord.guides(), ends)
        of["chord_tone_share"] = share(core, judged)
        time = sum(note.length for note in judged)
        of["chord_tone_time_share"] = (
            float(sum(note.length for note in judged if note.core) / time) if judged else None,
            len(judged))
        metred = [note for note in judged if note.beat is not None]
        of["chord_tone_share_beat_one"] = share(core, [n for n in metred if n.beat == 0])
        of["chord_tone_share_other_beats"] = share(
            core, [n for n in metred if n.on_beat and n.beat != 0])
        of["chord_tone_share_off_beat"] = share(core, [n for n in metred if not n.on_beat])
        of["written_tension_share"] = share(
            lambda note: note.chord.has(note) and not note.core, judged)
        centred = [note for note in notes if note.inside is not None]
        of["centre_scale_share"] = share(lambda note: note.inside, centred)
        of["centre_scale_chance"] = (
            sum(len(note.scale) for note in centred) / 12 / len(centred) if centred else None,
            len(centred))
        both = [note for note in judged if note.inside is not None]
        of["outside_share"] = share(lambda note: note.outside, both)
        of["unexplained_outside_share"] = share(lambda note: note.unexplained, both)
        of["in_key_share"] = share(lambda note: note.in_key, centred)
        best = max((sum(1 for note in centred if (note.pitch - tonic) % 12 in MAJOR)
                    for tonic in range(12)), default=0)
        of["other_scale_excess"] = (
            (best - sum(1 for note in centred if note.in_key)) / len(centred) if centred else None,
            len(centred))
        self.approaches(landings)
        pairs = [(line, place) for line in self.lines for place, note in enumerate(line)
                 if note.core and note.on_beat and place >= 2]
        of["enclosed_on_beat_share"] = share(
            lambda pair: enclosed(pair[0], pair[1]), pairs)
        if self.whole:
            self.over_changes(landings)
            self.between_breaths()

    def between_breaths(self):
        """Stretches from one silence of an eighth to the next, and the notes the line rests on."""
        of, solo = self.of, self.solo
        stretches = [[]]
        for note in solo.notes:
            if stretches[-1] and note.onset - stretches[-1][-1].end >= HALF:
                stretches.append([])
            stretches[-1].append(note)
        stretches = [stretch for stretch in stretches if stretch]
        lengths = [solo.time(line[0].onset, line[-1].end, "bars") for line in stretches]
        if stretches and None not in lengths:
            total = sum(lengths)
            begun = math.ceil(total)
            for key, held in (("unbroken_time_share", lambda bars: bars > Fraction(9, 2)),
                              ("scrap_time_share", lambda bars: bars < 1)):
                part = sum((bars for bars in lengths if held(bars)), Fraction(0))
                of[key] = (float(part / total), begun)
            of["longest_stretch_bars"] = (float(max(lengths)), len(lengths))
            of["short_stretch_share"] = share(lambda bars: bars < 1, lengths)
        else:
            for key in ("unbroken_time_share", "scrap_time_share", "longest_stretch_bars",
                        "short_stretch_share"):
                of[key] = (None, 0)
        by_chord = any(note.verdict for note in solo.notes)
        resting = []
        for stretch in stretches:
            for note in stretch:
                beat = Fraction(1) if note.metre.free else note.metre.beat
                if note is stretch[-1] or note.length >= beat * 3 / 2:
                    resting.append(note)
        if by_chord:
            of["resting_chord_tone_share"] = share(
                lambda note: note.core, [note for note in resting if note.verdict])
        else:
            of["resting_chord_tone_share"] = share(
                on_key_chord, [note for note in resting if note.tonic is not None])

    def approaches(self, landings):
        kinds = Counter()
        reached = [note for note in landings if note.place > 0]
        for note in reached:
            before = note.line[note.place - 1]
            size = abs(note.pitch - before.pitch)
            if note.place >= 2 and enclosed(note.line, note.place):
                kinds["enclosure"] += 1
            elif size == 0:
                kinds["repetition"] += 1
            elif size == 1 and before.inside is False:
                kinds["chromatic"] += 1
            else:
                kinds["step" if size <= 2 else "leap"] += 1
        for kind in ("chromatic", "step", "enclosure", "leap", "repetition"):
            self.of[f"approach_{kind}_share"] = (
                kinds[kind] / len(reached) if reached else None, len(reached))

    def over_changes(self, landings):
        of, solo = self.of, self.solo
        of["chord_tone_at_change_share"] = share(
            lambda pair: pair[0].has_core(pair[1]),
            [pair for pair in solo.first_under if pair[0].known() and pair[1].index > 0])
        of["guide_tone_at_change_share"] = share(
            lambda pair: pair[1].pitch % 12 in pair[0].guides(),
            [pair for pair in solo.first_under if pair[0].known() and pair[0].guides()])
        resolved = []
        for before, after in zip(solo.chords, solo.chords[1:]):
            earlier = [note for note in solo.notes if note.chord is before]
            if not earlier or before.end != after.onset or not asks_to_fall(
                    before, after, earlier[-1].pitch % 12):
                continue
            last = earlier[-1]
            following = solo.after(last)
            resolved.append(
                following is not None and following.chord is after
                and solo.within_a_bar(after, following)
                and last.pitch - following.pitch in (1, 2)
                and following.pitch % 12 == after.third())
        reached = []
        for note in landings:
            following = solo.after(note)
            if following is None or note.chord is None or not following.verdict:
                continue
            before, after = note.chord, following.chord
            if before is not after and before.end == after.onset and after.differs_from(before) \
                    and after.guides() and solo.within_a_bar(after, following):
                reached.append(following.pitch % 12 in after.guides())
        of["guide_tone_resolution_share"] = share(bool, resolved)
        of["next_guide_tone_share"] = share(bool, reached)

    def movement(self):
        of, solo, notes = self.of, self.solo, self.notes
        count, time = len(notes), sum(note.length for note in notes)
        by_count, by_time = Counter(), Counter()
        for note in notes:
            name = VALUE_OF_LENGTH.get(note.length, "other")
            by_count[name] += 1
            by_time[name] += note.length
        for name in [*NOTE_VALUES, "other"]:
            of["value_share_" + name] = (by_count[name] / count if count else None, count)
            of["time_share_" + name] = (float(by_time[name] / time) if count else None, count)
        if self.whole:
            of["eighth_or_shorter_share"] = share(self.moves, notes)
        of["note_value_entropy"] = (entropy(by_count) if count else None, count)
        gaps = [[b.onset - a.onset for a, b in zip(line, line[1:])] for line in self.lines]
        of["onset_gap_eighth_share"] = share(lambda gap: gap == HALF, [g for l in gaps for g in l])
        beats = [solo.time(line[0].onset, line[-1].end, "beats") for line in self.lines]
        metred = [(line, length) for line, length in zip(self.lines, beats) if length is not None]
        played = sum(len(line) for line, _ in metred)
        of["notes_per_beat"] = (
            float(played / sum(length for _, length in metred)) if metred else None, played)
        pairs = []
        for line in self.lines:
            chain = []
            for before, after in zip(line, line[1:]):
                beat = Fraction(1) if before.metre.free else before.metre.beat
                if after.onset - before.end >= beat:
                    pairs += list(zip(chain, chain[1:]))
                    chain = []
                    continue
                chain.append(after.onset - before.onset)
            pairs += list(zip(chain, chain[1:]))
        of["onset_gap_npvi"] = (
            float(100 * sum(abs(a - b) / ((a + b) / 2) for a, b in pairs) / len(pairs))
            if pairs else None, len(pairs))
        of["equal_gap_share"] = share(lambda pair: pair[0] == pair[1], pairs)
        metred = [note for note in notes if note.beat is not None]
        of["off_beat_share"] = share(lambda note: not note.on_beat, metred)

        def anticipates(note):
            ahead = -note.beat % 1
            return 0 < ahead <= HALF and note.length / note.metre.beat > ahead

        of["anticipation_share"] = share(anticipates, metred)
        self.against_the_metre(metred)
        sounding = sum(note.length for note in notes)
        lasting = sum((line[-1].end - line[0].onset for line in self.lines), Fraction(0))
        of["rest_inside_share"] = (float(1 - sounding / lasting) if count else None, count)
        if self.whole:
            self.over_the_solo()

    def moves(self, note):
        """An eighth or shorter, or the long note of a swung pair that is written out."""
        if note.length <= HALF:
            return True
        swung = note.length in (Fraction(2, 3), Fraction(3, 4))
        if not swung or note.metre.free or note.position.denominator != 1:
            return False
        after = self.solo.after(note)
        if after is None or after.phrase != note.phrase:
            return True
        return after.onset > note.end or after.length != note.length

    def against_the_metre(self, metred):
        of, solo = self.of, self.solo
        bars = [solo.time(line[0].onset, line[-1].end, "bars") for line in self.lines]
        free = any(length is None for length in bars)
        total, distances = 0, []
        for note in metred:
            following = solo.after(note)
            until = following.onset if following is not None else note.end
            total += max(0, strongest(note, following) - level(note.position, note.metre))
            away = min(note.beat % 1, -note.beat % 1)
            if away == 0:
                distances.append(Fraction(0))
                continue
            # Beats that pass before the note ends, counted from the one after its onset.
            lasts = (until - note.onset) / note.metre.beat
            ahead = -note.beat % 1
            factor = 2 if ahead < lasts <= ahead + 1 else 1
            distances.append(factor / away)
        of["syncopation_per_bar"] = (
            float(total / sum(bars)) if metred and not free else None, len(metred))
        of["beat_distance"] = (
            float(sum(distances) / len(distances)) if distances else None, len(distances))

    def over_the_solo(self):
        of, solo, notes = self.of, self.solo, self.notes
        if not notes:
            return
        start, end = notes[0].onset, max(note.end for note in notes)
        bars = solo.time(start, end, "bars")
        of["notes_per_bar"] = (float(len(notes) / bars), len(notes)) if bars else (None, 0)
        of["phrases_per_8_bars"] = (
            (float(8 * len(self.phrases) / bars), len(self.phrases)) if bars else (None, 0))
        of["sounding_share"] = (
            float(sum(note.length for note in notes) / (end - start)), len(notes))
        tempos = {phrase.tempo for phrase in self.phrases} | {solo.tempo}
        if len(tempos) == 1:
            tempo = tempos.pop()
            seconds = None if tempo is None else float(end - start) * 60 / tempo
            of["notes_per_second"] = (
                (len(notes) / seconds, len(notes)) if seconds else (None, 0))
        runs, run = [], [notes[0]]
        for before, after in zip(notes, notes[1:]):
            beat = Fraction(1) if before.metre.free else before.metre.beat
            if after.onset - before.end >= beat / 2:
                runs.append(run)
                run = []
            run.append(after)
        runs.append(run)
        of["longest_run_notes"] = (max(len(run) for run in runs), len(notes))
        lengths = [solo.time(run[0].onset, run[-1].end, "bars") for run in runs]
        free = any(length is None for length in lengths)
        of["longest_run_bars"] = (None, 0) if free else (float(max(lengths)), len(notes))

    def phrasing(self):
        of, solo = self.of, self.solo
        lines = self.lines
        bars = [solo.time(line[0].onset, line[-1].end, "bars") for line in lines]
        beats = [solo.time(line[0].onset, line[-1].end, "beats") for line in lines]
        of["phrase_length_bars"] = median(bars)
        of["phrase_length_beats"] = median(beats)
        of["phrase_onset_span_bars"] = median(
            [solo.time(line[0].onset, line[-1].onset, "bars") for line in lines])
        of["phrase_notes"] = median([len(line) for line in lines])
        constant = {phrase.tempo for phrase in solo.phrases} | {solo.tempo}
        tempo = constant.pop() if len(constant) == 1 else False
        if tempo is not False:
            of["phrase_length_seconds"] = median(
                [None if tempo is None else float(line[-1].end - line[0].onset) * 60 / tempo
                 for line in lines])
        of["phrase_bars_touched"] = median([bars_touched(solo, line) for line in lines])
        metred = [line for line in lines if line[0].beat is not None]
        of["phrase_starts_on_beat"] = share(lambda line: line[0].on_beat, metred)
        of["phrase_ends_on_beat"] = share(
            lambda line: line[-1].on_beat, [line for line in lines if line[-1].beat is not None])
        if len(lines) == 1 and not self.whole or len(solo.phrases) == 1:
            line = lines[0]
            of["phrase_start_beat"] = (float(1 + line[0].beat), 1) if metred else (None, 0)
            of["phrase_end_beat"] = (
                (float(1 + line[-1].beat), 1) if line[-1].beat is not None else (None, 0))
        of["phrase_starts_with_pickup"] = share(self.has_pickup, metred)
        for beat in (1, 2, 3, 4):
            of[f"phrase_starts_beat_{beat}"] = share(
                lambda line: int(line[0].beat) + 1 == beat, metred)
            of[f"phrase_ends_beat_{beat}"] = share(
                lambda line: int(line[-1].beat) + 1 == beat,
                [line for line in lines if line[-1].beat is not None])
        self.in_the_form()
        silences, pauses = [], []
        for line in lines:
            last = line[-1]
            after = solo.after(last)
            silences.append(None if after is None else solo.time(last.end, after.onset, "beats"))
            pauses.append(None if after is None or not tempo
                          else float(after.onset - last.end) * 60 / tempo)
        of["silence_after_beats"] = median(silences)
        if tempo is not False:
            of["silence_after_seconds"] = median(pauses)
        known = [length for length in bars if length is not None]
        edges = [Fraction(0), HALF, Fraction(3, 2), Fraction(5, 2), Fraction(7, 2), Fraction(9, 2)]
        names = ["under_half_bar", "one_bar", "two_bars", "three_bars", "four_bars", "longer"]
        for place, name in enumerate(names):
            above = edges[place + 1] if place + 1 < len(edges) else None
            of["phrases_" + name] = share(
                lambda length: length >= edges[place] and (above is None or length < above), known)
        lengths = [math.log2(length) for length in beats if length is not None]
        of["phrase_length_variety"] = (
            (numbers.stdev(lengths), len(lengths)) if len(lengths) > 1 else (None, 0))
        of["phrase_count"] = (len(lines) or None, len(lines))

    def has_pickup(self, line):
        solo = self.solo
        first = line[0]
        if first.position <= first.metre.bar / 2:
            return False
        until = first.onset + first.metre.bar - first.position
        return any(note.onset >= until for note in line)

    def start_bar(self, line):
        """The bar in which a phrase starts in the form."""
        bar = line[0].bar_index
        if line[0].beat is not None and self.has_pickup(line):
            goal = line[0].onset + line[0].metre.bar - line[0].position
            bar = bisect.bisect_right(self.solo.bar_onsets, goal) - 1
        return self.solo.bars[bar]

    def in_the_form(self):
        of, solo = self.of, self.solo
        starts = [(self.start_bar(line), solo.bars[line[-1].bar_index]) for line in self.lines]
        group = lambda bar: bar.in_section if bar.in_section is not None else bar.in_chorus
        of["phrase_starts_four_bar_group"] = share(
            lambda pair: (group(pair[0]) - 1) % 4 == 0,
            [pair for pair in starts if group(pair[0]) is not None])
        of["phrase_ends_four_bar_group"] = share(
            lambda pair: (group(pair[1]) - 1) % 4 == 3,
            [pair for pair in starts if group(pair[1]) is not None])
        in_section = [pair for pair in starts if pair[0].in_section is not None]
        of["phrase_starts_section"] = share(lambda pair: pair[0].in_section == 1, in_section)
        of["phrase_crosses_section"] = share(lambda pair: self.section_between(*pair), in_section)
        of["phrase_crosses_chorus"] = share(
            lambda pair: pair[1].chorus is not None and pair[1].chorus > pair[0].chorus,
            [pair for pair in starts if pair[0].chorus is not None])

    def section_between(self, first, last):
        bars = self.solo.bars
        place = bars.index(first)
        while bars[place] is not last and place + 1 < len(bars) and bars[place].onset < last.onset:
            before = bars[place].in_section
            place += 1
            now = bars[place].in_section
            if now is not None and before is not None and now <= before and \
                    not (now == before and bars[place].offset > 0):
                return True
        return False

    def line(self):
        of, lines, notes = self.of, self.lines, self.notes
        ranges = [max(n.pitch for n in line) - min(n.pitch for n in line) for line in lines]
        of["phrase_range"] = median(ranges)
        pitches = [note.pitch for note in notes]
        of["solo_range"] = (max(pitches) - min(pitches) if pitches else None, len(pitches))
        moves = [[b.pitch - a.pitch for a, b in zip(line, line[1:])] for line in lines]
        every = [move for line in moves for move in line]
        sizes = [abs(move) for move in every]
        of["mean_interval"] = (sum(sizes) / len(sizes) if sizes else None, len(sizes))
        varied = len(sizes) > 1 and any(sizes)
        of["interval_variability"] = (
            100 * numbers.stdev(sizes) / numbers.fmean(sizes) if varied else None,
            len(sizes) if varied else 0)
        of["repetition_share"] = share(lambda size: size == 0, sizes)
        of["step_share"] = share(lambda size: size in (1, 2), sizes)
        of["semitone_share"] = share(lambda size: size == 1, sizes)
        of["skip_share"] = share(lambda size: size in (3, 4), sizes)
        of["leap_share"] = share(lambda size: size >= 5, sizes)
        of["ascending_share"] = share(lambda move: move > 0, [move for move in every if move])
        turns = []
        for line in moves:
            going = [move for move in line if move]
            turns += [(a > 0) != (b > 0) for a, b in zip(going, going[1:])]
        of["direction_change_share"] = share(bool, turns)
        long = [line for line in lines if len(line) >= 3]
        peaks = []
        for line in long:
            top = max(note.pitch for note in line)
            peak = next(note for note in line if note.pitch == top)
            peaks.append((peak.onset - line[0].onset) / (line[-1].onset - line[0].onset))
        of["peak_place"] = median(peaks)
        shapes = Counter(shape([note.pitch for note in line]) for line in long)
        for name in ("descending", "convex", "ascending", "concave", "other"):
            of["contour_" + name] = (shapes[name] / len(long) if long else None, len(long))
        classes = Counter(pitch % 12 for pitch in pitches)
        if pitches:
            bits = entropy(classes)
            of["pitch_class_entropy"] = (bits, len(pitches))
            of["pitch_class_entropy_corrected"] = (
                bits + (len(classes) - 1) / (2 * len(pitches) * math.log(2)), len(pitches))
        of["interval_entropy"] = (entropy(Counter(every)) if every else None, len(every))
        windows = [tuple(line[at:at + 4]) for line in moves for at in range(len(line) - 3)]
        seen = Counter(windows)
        of["pattern_recurrence"] = share(lambda window: seen[window] > 1, windows)
        plain = [(1,) * 4, (-1,) * 4, (0,) * 4]
        of["pattern_recurrence_varied"] = share(
            lambda window: seen[window] > 1, [window for window in windows if window not in plain])


def on_key_chord(note):
    """Whether a note is 1 3 5 7 of the key, its thirds and sevenths those of the scale."""
    above = (note.pitch - note.tonic) % 12
    return above in (0, 7) or above in (3, 4, 10, 11) and note.pitch % 12 in note.key_scale


def enclosed(line, place):
    """The two notes before lie on opposite sides, each one or two semitones away."""
    first = line[place - 2].pitch - line[place].pitch
    second = line[place - 1].pitch - line[place].pitch
    return first * second < 0 and abs(first) <= 2 and abs(second) <= 2


def asks_to_fall(before, after, pitch_class):
    """Whether a note over one chord is a guide tone that the next chord lets fall."""
    if not before.known() or not after.known() or after.third() is None:
        return False
    above = {(tone - before.root) % 12 for tone in before.core}
    place, fall = (pitch_class - before.root) % 12, (before.root - after.root) % 12
    if fall == 7:
        return pitch_class == before.seventh() and place != 11
    return fall == 1 and {4, 10} <= above and place == 4


def shape(pitches):
    inner = Fraction(sum(pitches[1:-1]), len(pitches) - 2)
    first, last = pitches[0], pitches[-1]
    if first > inner > last:
        return "descending"
    if first < inner < last:
        return "ascending"
    if first < inner > last:
        return "convex"
    if first > inner < last:
        return "concave"
    return "other"


def strongest(note, following):
    """Weight of the strongest place between an onset and the next one, or the onset's own where that
    is stronger; after the last note of the solo the next bar line is silent."""
    own = level(note.position, note.metre)
    if following is None:
        return 0
    until = note.position + following.onset - note.onset
    for weight, period in enumerate(periods(note.metre)):
        if -weight <= own:
            break
        if (note.position // period + 1) * period < until:
            return -weight
    return own


def bars_touched(solo, line):
    first = bisect.bisect_right(solo.bar_onsets, line[0].onset) - 1
    end = line[-1].end
    count = 0
    for place in range(first, len(solo.bars)):
        bar = solo.bars[place]
        if bar.onset >= end:
            break
        second_half = place > first and bar.offset > 0 and not bar.pickup
        count += 0 if second_half or bar.length == 0 else 1
    return count


def read(folder):
    def rows(table):
        with open(folder / "csv" / f"{table}.csv", newline="", encoding="utf-8") as file:
            yield from csv.DictReader(file)

    solos = {row["solo_id"]: Solo(row) for row in rows("solos")}
    for table, kind, many in (("notes", Note, "notes"), ("chords", Chord, "chords"),
                              ("tonal_centres", Stretch, "stretches"), ("bars", Bar, "bars"),
                              ("phrases", Phrase, "phrases")):
        for row in rows(table):
            getattr(solos[row["solo_id"]], many).append(kind(row))
    theirs = defaultdict(dict)
    for row in rows("solo_statistics"):
        theirs[row["solo_id"], None][row["statistic"]] = row
    for row in rows("phrase_statistics"):
        theirs[row["solo_id"], int(row["phrase_index"])][row["statistic"]] = row
    return solos, theirs


def main():
    if len(sys.argv) != 2:
        sys.exit("Usage: recompute.py EXPORT")
    folder = Path(sys.argv[1])
    solos, theirs = read(folder)
    compared, differing, least = Counter(), defaultdict(list), Counter()
    missing = Counter()
    for name, solo in solos.items():
        solo.settle()
        for unit in [None, *range(len(solo.phrases))]:
            rows = theirs.get((name, unit), {})
            phrases = solo.phrases if unit is None else [solo.phrases[unit]]
            ours = Statistics(solo, phrases).of
            for key, row in rows.items():
                if key not in ours:
                    missing[key] += 1
                    continue
                value, n = ours[key]
                told = float(row["value"]) if row["value"] else None
                compared[key] += 1
                same = (told is None) == (value is None) and (
                    told is None or abs(told - value) <= TOLERANCE * max(1, abs(told)))
                if not same or int(row["n"]) != n:
                    differing[key].append((name, unit, told, value, int(row["n"]), n))
    keys = {key for rows in theirs.values() for key in rows}
    for key in sorted(keys):
        if differing[key]:
            print(f"{key}: {len(differing[key])} of {compared[key]} differ, such as "
                  + "; ".join(str(case) for case in differing[key][:3]))
        elif not compared[key]:
            print(f"{key}: not computed here")
        elif missing[key]:
            print(f"{key}: {compared[key]} agree, {missing[key]} not computed here")
    wrong = [key for key in keys if differing[key] or not compared[key]]
    print(f"{len(keys) - len(wrong)} of {len(keys)} statistics agree, "
          f"{sum(compared.values())} values of {len(solos)} solos and their phrases compared")
    sys.exit(1 if wrong or not keys else 0)


if __name__ == "__main__":
    main()
