package phrasecensus.cli;

import java.nio.charset.StandardCharsets;
import java.util.Map;
import phrasecensus.report.engraving.Engraver;
import phrasecensus.report.engraving.Layout;
import phrasecensus.report.rows.SoloLine;
import phrasecensus.rows.FileRows;
import phrasecensus.spark.StudySession;
import phrasecensus.tables.StudySettings;
import phrasecensus.tables.TableSchemas;

/**
 * Reads and engraves a made-up score, again and again, in a thread of its own while Spark starts:
 * Spark's start keeps one processor busy, and what a study does first is then loaded and compiled.
 * Nothing depends on it but time.
 */
final class HeadStart {
  private static final int BARS = 24;

  /** A bound where Spark takes long to start, as on a cluster. */
  private static final int MOST_ROUNDS = 60;

  private volatile boolean ended;

  private HeadStart() {}

  /** Opens a session, and makes use of the time until it is open. */
  static StudySession session() {
    HeadStart headStart = new HeadStart();
    Thread thread = new Thread(headStart::run, "head-start");
    thread.setDaemon(true);
    // What goes wrong here goes wrong again where it is told.
    thread.setUncaughtExceptionHandler((stopped, fault) -> {});
    thread.start();
    try {
      return StudySession.open();
    } finally {
      headStart.ended = true;
    }
  }

  private void run() {
    FileRows reading = new FileRows(StudySettings.defaults(), TableSchemas.named("solos"));
    byte[] score = score().getBytes(StandardCharsets.UTF_8);
    for (int round = 0; round < MOST_ROUNDS && !ended; round++) {
      FileRows.Result result = reading.of("corpus", "head-start.musicxml", score, Map.of());
      Engraver.engrave("head-start", SoloLine.of(result.rows()), null, Layout.wide());
    }
  }

  /** Scales over two chords, a rest at the end of every other bar. */
  static String score() {
    StringBuilder score = new StringBuilder();
    score.append(
        "<score-partwise version=\"4.0\"><part-list><score-part id=\"P1\"><part-name>Solo"
            + "</part-name></score-part></part-list><part id=\"P1\">");
    for (int bar = 0; bar < BARS; bar++) {
      score.append("<measure number=\"").append(bar + 1).append("\">");
      if (bar == 0) {
        score.append(
            "<attributes><divisions>2</divisions><key><fifths>0</fifths></key><time><beats>4"
                + "</beats><beat-type>4</beat-type></time></attributes>");
      }
      score
          .append("<harmony><root><root-step>")
          .append(bar % 2 == 0 ? "C" : "G")
          .append("</root-step></root><kind>")
          .append(bar % 2 == 0 ? "major" : "dominant")
          .append("</kind></harmony>");
      for (int i = 0; i < 8; i++) {
        score.append("<note>");
        if (bar % 2 == 1 && i > 4) {
          score.append("<rest/>");
        } else {
          score
              .append("<pitch><step>")
              .append("CDEFGABC".charAt(i))
              .append("</step><octave>")
              .append(i == 7 ? 5 : 4)
              .append("</octave></pitch>");
        }
        score.append("<duration>1</duration><type>eighth</type></note>");
      }
      score.append("</measure>");
    }
    return score.append("</part></score-partwise>").toString();
  }
}
