package phrasecensus.readers.musicxml;

import java.nio.charset.StandardCharsets;
import phrasecensus.music.score.Solo;
import phrasecensus.readers.ReadResult;
import phrasecensus.readers.ReadSettings;
import phrasecensus.readers.SoloReader;

/** Scores of a few notes, written for the tests. */
final class TinyScores {
  /** One division to the quarter note, 4/4. */
  static final String COMMON_TIME =
      "<attributes><divisions>1</divisions>"
          + "<time><beats>4</beats><beat-type>4</beat-type></time></attributes>";

  private TinyScores() {}

  /** A score of one part with these measures. */
  static String part(String measures) {
    return "<score-partwise version='4.0'><part-list><score-part id='P1'>"
        + "<part-name>Solo</part-name></score-part></part-list><part id='P1'>"
        + measures
        + "</part></score-partwise>";
  }

  /** A score of one part with one bar of 4/4, one division to the quarter note. */
  static String bar(String contents) {
    return part("<measure number='1'>" + COMMON_TIME + contents + "</measure>");
  }

  static String note(String step, int octave, int duration) {
    return note(step, octave, duration, "");
  }

  /** A note with more elements after its duration. */
  static String note(String step, int octave, int duration, String more) {
    return "<note><pitch><step>"
        + step
        + "</step><octave>"
        + octave
        + "</octave></pitch>"
        + "<duration>"
        + duration
        + "</duration>"
        + more
        + "</note>";
  }

  static String rest(int duration) {
    return "<note><rest/><duration>" + duration + "</duration></note>";
  }

  static String chord(String root, String kind) {
    return "<harmony><root><root-step>"
        + root
        + "</root-step></root><kind>"
        + kind
        + "</kind></harmony>";
  }

  static ReadResult result(String score) {
    return result(score, ReadSettings.defaults());
  }

  static ReadResult result(String score, ReadSettings settings) {
    return SoloReader.read(score.getBytes(StandardCharsets.UTF_8), "tiny.musicxml", settings);
  }

  /** The solo of a score that must be readable. */
  static Solo solo(String score) {
    ReadResult result = result(score);
    if (!result.isRead()) {
      throw new AssertionError(result.reason());
    }
    return result.solo();
  }

  /** Notes as {@code onset:midi:length}. */
  static String notes(Solo solo) {
    StringBuilder text = new StringBuilder();
    solo.notes()
        .forEach(
            note ->
                text.append(text.isEmpty() ? "" : " ")
                    .append(note.onset())
                    .append(':')
                    .append(note.midi())
                    .append(':')
                    .append(note.length()));
    return text.toString();
  }

  /** Codes of the problems met. */
  static java.util.List<String> codes(ReadResult result) {
    return result.problems().stream().map(phrasecensus.readers.Problem::code).toList();
  }
}
