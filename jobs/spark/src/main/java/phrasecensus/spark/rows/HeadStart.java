package phrasecensus.spark.rows;

import java.nio.charset.StandardCharsets;
import java.util.Map;
import phrasecensus.tables.StudySettings;
import phrasecensus.tables.TableSchemas;

/**
 * Reads a made-up score in a thread of its own, so that the classes of reading are loaded while
 * Spark starts. Nothing depends on it but time.
 */
public final class HeadStart {
  private static final int BARS = 24;

  private HeadStart() {}

  /** Begins, and does not wait. */
  public static void begin() {
    Thread thread = new Thread(HeadStart::read, "head-start");
    thread.setDaemon(true);
    thread.start();
  }

  private static void read() {
    new FileRows(StudySettings.defaults(), TableSchemas.named("solos"))
        .of("corpus", "head-start.musicxml", score().getBytes(StandardCharsets.UTF_8), Map.of());
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
