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
 * notes: one whose name says solo, lead or melody before the others, percussion, bass and parts
 * that play chords after them, and of equals the one with most single-line notes, then the first
 * (our own rule).
 *
 * @param part the chosen part
 * @param reason why, in a sentence
 */
record PartChoice(PartReading part, String reason) {
  private static final Pattern SOLO = words("solo", "soloist", "lead", "melody", "melodie");
  private static final Pattern PERCUSSION =
      words("drum", "drums", "drumset", "percussion", "kit", "cymbals?", "schlagzeug", "batterie");
  private static final Pattern BASS = words("bass", "contrabass", "double bass", "kontrabass");
  private static final Pattern CHORDS =
      words("piano", "keyboard", "keys", "organ", "comp", "comping", "rhythm", "chords", "backing");
  private static final double MOST_STACKS = 0.4;

  private record Candidate(PartReading part, int rank, int singleNotes, String why) {}

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
    Candidate best = null;
    int withNotes = 0;
    for (PartReading part : parts) {
      Candidate candidate = candidate(part);
      if (candidate.singleNotes() > 0) {
        withNotes++;
        if (best == null
            || candidate.rank() > best.rank()
            || candidate.rank() == best.rank() && candidate.singleNotes() > best.singleNotes()) {
          best = candidate;
        }
      }
    }
    if (best == null) {
      return new PartChoice(parts.get(0), "No part has a single line; it is the first.");
    }
    if (withNotes == 1) {
      return new PartChoice(best.part(), "It is the only part with a single line of notes.");
    }
    return new PartChoice(
        best.part(),
        best.why()
            + best.singleNotes()
            + " single-line notes, the most of such parts; "
            + parts.size()
            + " parts in all.");
  }

  private static Candidate candidate(PartReading part) {
    Map<String, Set<Object>> onsets = new HashMap<>();
    Map<String, Set<Object>> stacks = new HashMap<>();
    int pitched = 0;
    int unpitched = 0;
    for (NoteReading note : part.notes()) {
      if (note.grace() || note.inSlashes()) {
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
      return new Candidate(part, -2, single, "Only percussion parts have notes; it has ");
    }
    boolean chordal = stacked > MOST_STACKS * (single + stacked) || CHORDS.matcher(name).find();
    if (SOLO.matcher(name).find()) {
      return new Candidate(part, 1, single, "Its name says it is the solo; it has ");
    }
    boolean bass = BASS.matcher(name).find() && !name.contains("clarinet") && !name.contains("sax");
    if (bass || chordal) {
      return new Candidate(part, -1, single, "All parts look like accompaniment; it has ");
    }
    return new Candidate(part, 0, single, "It has ");
  }

  private static Pattern words(String... words) {
    return Pattern.compile("(^|[^a-z])(" + String.join("|", words) + ")($|[^a-z])");
  }
}
