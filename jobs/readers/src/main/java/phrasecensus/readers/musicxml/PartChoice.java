package phrasecensus.readers.musicxml;

import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import phrasecensus.readers.ProblemLog;

/**
 * Chooses the part that holds the solo. The part named by the settings; else, among the parts with
 * notes: one whose name says solo, lead or melody before the others; then melody instruments before
 * parts that play chords, these before bass, and percussion last; of equals the one that strikes
 * most single notes, then the first (our own rule). A low part an octave below another melody
 * instrument counts as its bass. A part with less than a sixth of the single notes of another one
 * goes before it only if its name says so.
 *
 * @param part the chosen part
 * @param reason why, in a sentence
 */
record PartChoice(PartReading part, String reason) {
  private static final Pattern SOLO =
      words(
          "solo", "soloist", "solist", "solista", "lead", "melody", "melodie", "melodia", "mélodie",
          "melodía", "tema", "theme", "thema");
  private static final Pattern PERCUSSION =
      words(
          "drums?",
          "drumset",
          "drum ?kit",
          "percussion",
          "kit",
          "cymbals?",
          "hi-?hat",
          "snare",
          "timpani",
          "schlagzeug",
          "pauken",
          "perkussion",
          "batteria",
          "batterie",
          "batería",
          "bateria",
          "percussioni",
          "percusión",
          "percussão",
          "tamburo",
          "congas?",
          "bongos?",
          "tambourine",
          "triangle",
          "shaker",
          "claves");
  private static final Pattern BASS =
      words(
          "bass",
          "contrabass",
          "kontrabass",
          "bassgitarre",
          "baß",
          "kontrabaß",
          "basso",
          "contrabbasso",
          "continuo",
          "basse",
          "contrebasse",
          "bajo",
          "contrabajo",
          "baixo",
          "contrabaixo",
          "bas",
          "contrabas",
          "violone",
          "sousaphone",
          "left hand",
          "l\\.?h\\.?",
          "linke hand",
          "main gauche",
          "mano sinistra");
  private static final Pattern HIGH_BASS_INSTRUMENT =
      words(
          "bass ?clarinets?",
          "bass ?sax(?:ophone)?s?",
          "bass ?trombones?",
          "bass ?flutes?",
          "bass ?trumpets?",
          "bass ?recorders?",
          "bassklarinette",
          "bassposaune",
          "basson",
          "clarinette basse",
          "clarinetto basso",
          "clarone",
          "trombone basso",
          "flauto basso",
          "flûte basse",
          "clarinete bajo",
          "basset.*");
  private static final Pattern CHORDS =
      words(
          "piano",
          "pianoforte",
          "pf",
          "keyboards?",
          "keys",
          "organ",
          "orgel",
          "organo",
          "orgue",
          "klavier",
          "harpsichord",
          "cembalo",
          "clavecin",
          "harfe",
          "arpa",
          "harpe",
          "comp",
          "comping",
          "rhythm",
          "chords",
          "backing",
          "accompaniment",
          "begleitung",
          "accompagnement",
          "accompagnamento",
          "pad",
          "strings? pad");
  private static final double MOST_STACKS = 0.4;
  private static final int PART_OF_NOTES = 6;

  /** Below the great A a line is a bass, unless its instrument is known for something else. */
  private static final int BASS_REGISTER = 45;

  /** A part that lies an octave and more below another melody instrument may be its bass. */
  private static final int LOW_REGISTER = 52;

  private static final int OCTAVE = 12;
  private static final int PART_OF_NOTES_ABOVE = 3;

  /**
   * A part that may hold the solo.
   *
   * @param middle median of its sounding pitches, a MIDI number; 0 for none
   */
  private record Candidate(PartReading part, Role role, int singleNotes, int middle) {
    Candidate as(Role other) {
      return new Candidate(part, other, singleNotes, middle);
    }

    /** True when another melody instrument plays an octave above it, and enough. */
    boolean isBelowOneOf(List<Candidate> candidates) {
      return role == Role.MELODY
          && middle < LOW_REGISTER
          && candidates.stream()
              .anyMatch(
                  other ->
                      other.role == Role.MELODY
                          && other.middle >= middle + OCTAVE
                          && other.singleNotes * PART_OF_NOTES_ABOVE >= singleNotes);
    }
  }

  private enum Role {
    PERCUSSION("Only percussion parts have notes; it has "),
    BASS("There are only bass parts; it has "),
    CHORDS("All parts look like accompaniment; it has "),
    MELODY("It is a melody instrument and has "),
    SOLO("Its name says that it is the melody; it has ");

    private final String why;

    Role(String why) {
      this.why = why;
    }
  }

  /**
   * Chooses.
   *
   * @param parts at least one
   */
  static PartChoice of(List<PartReading> parts, Optional<String> preferred, ProblemLog problems) {
    if (preferred.isPresent()) {
      for (PartReading part : parts) {
        if (part.description().id().equals(preferred.get())) {
          return new PartChoice(part, "The settings name this part.");
        }
      }
      for (PartReading part : parts) {
        if (part.description().name().equalsIgnoreCase(preferred.get().strip())) {
          return new PartChoice(part, "The settings name this part.");
        }
      }
      problems.add(
          "",
          "",
          "part-not-found",
          "no part with the id or name '" + preferred.get() + "'",
          "the part is chosen by rule");
    }
    if (parts.size() == 1) {
      return new PartChoice(parts.get(0), "It is the only part.");
    }
    List<Candidate> withNotes =
        parts.stream()
            .map(PartChoice::candidate)
            .filter(candidate -> candidate.singleNotes() > 0)
            .toList();
    List<Candidate> candidates =
        withNotes.stream()
            .map(each -> each.isBelowOneOf(withNotes) ? each.as(Role.BASS) : each)
            .toList();
    if (candidates.isEmpty()) {
      return new PartChoice(parts.get(0), "No part has a single line; it is the first.");
    }
    if (candidates.size() == 1) {
      return new PartChoice(
          candidates.get(0).part(), "It is the only part with a single line of notes.");
    }
    int most =
        candidates.stream()
            .filter(candidate -> candidate.role() != Role.PERCUSSION)
            .mapToInt(Candidate::singleNotes)
            .max()
            .orElse(0);
    Candidate best = null;
    for (Candidate candidate : candidates) {
      boolean near =
          candidate.role() == Role.SOLO || candidate.singleNotes() * PART_OF_NOTES >= most;
      if (near
          && (best == null
              || candidate.role().compareTo(best.role()) > 0
              || candidate.role() == best.role() && candidate.singleNotes() > best.singleNotes())) {
        best = candidate;
      }
    }
    return new PartChoice(best.part(), best.role().why + reason(best, candidates));
  }

  private static String reason(Candidate best, List<Candidate> candidates) {
    Role role = best.role();
    long alike = candidates.stream().filter(other -> other.role() == role).count();
    return best.singleNotes()
        + " single notes"
        + (alike > 1 ? ", the most of the " + alike + " parts of that sort; " : "; ")
        + candidates.size()
        + " parts have notes.";
  }

  private static Candidate candidate(PartReading part) {
    Map<String, Set<Object>> onsets = new HashMap<>();
    Map<String, Set<Object>> stacks = new HashMap<>();
    int pitched = 0;
    int unpitched = 0;
    for (NoteReading note : part.notes()) {
      if (note.grace() || !note.isMelody()) {
        continue;
      }
      if (!note.isPitched()) {
        unpitched++;
        continue;
      }
      pitched++;
      List<Object> place = List.of(note.bar(), note.offset());
      Map<String, Set<Object>> places = note.stacked() ? stacks : onsets;
      places.computeIfAbsent(note.voice(), v -> new HashSet<>()).add(place);
    }
    int single = 0;
    int stacked = 0;
    for (Map.Entry<String, Set<Object>> voice : onsets.entrySet()) {
      int inStacks = stacks.getOrDefault(voice.getKey(), Set.of()).size();
      if (voice.getValue().size() - inStacks > single) {
        single = voice.getValue().size() - inStacks;
        stacked = inStacks;
      }
    }
    String name =
        (part.description().name() + " " + part.description().instrument())
            .toLowerCase(Locale.ROOT);
    boolean percussion =
        part.percussionClef()
            || part.description().drumChannel()
            || unpitched > pitched
            || PERCUSSION.matcher(name).find();
    if (percussion) {
      return new Candidate(part, Role.PERCUSSION, single, 0);
    }
    if (SOLO.matcher(name).find()) {
      return new Candidate(part, Role.SOLO, single, 0);
    }
    int middle = middle(part);
    boolean otherwise = HIGH_BASS_INSTRUMENT.matcher(name).find();
    if (BASS.matcher(name).find() && !otherwise || !otherwise && isLow(middle, name)) {
      return new Candidate(part, Role.BASS, single, middle);
    }
    boolean chordal = stacked > MOST_STACKS * (single + stacked) || CHORDS.matcher(name).find();
    return new Candidate(part, chordal ? Role.CHORDS : Role.MELODY, single, middle);
  }

  /** True for a part in the register of a bass whose name is that of no other instrument. */
  private static boolean isLow(int middle, String name) {
    return middle > 0 && middle < BASS_REGISTER && InstrumentRange.named(name).isEmpty();
  }

  private static int middle(PartReading part) {
    int[] sounding =
        part.notes().stream()
            .filter(note -> note.isPitched() && note.isMelody() && !note.grace())
            .mapToInt(note -> note.concert().midi())
            .sorted()
            .toArray();
    return sounding.length == 0 ? 0 : Math.max(1, sounding[sounding.length / 2]);
  }

  private static Pattern words(String... words) {
    return Pattern.compile(
        "(?<!\\p{L})(?:" + String.join("|", words) + ")(?!\\p{L})",
        Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE);
  }
}
