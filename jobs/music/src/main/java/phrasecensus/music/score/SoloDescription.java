package phrasecensus.music.score;

import java.util.Map;

/**
 * What a file says about a solo in words. Text from files is untrusted.
 *
 * @param title work or movement title; empty when none
 * @param creators role to name as in {@code composer}, {@code performer}; sorted by role
 * @param miscellaneous the file's own further fields, sorted by name
 * @param partId the chosen part
 * @param partName its name; empty when none
 * @param instrument instrument name where the file has one, else the part name
 * @param voice label of the voice that makes the line; empty when the file has none
 * @param staff the staff on which most of the line stands, from 1
 * @param partReason why this part and this line were taken, in a sentence or two
 * @param chordSource where the chord symbols come from, in a sentence
 */
public record SoloDescription(
    String title,
    Map<String, String> creators,
    Map<String, String> miscellaneous,
    String partId,
    String partName,
    String instrument,
    String voice,
    int staff,
    String partReason,
    String chordSource) {
  /** A description of a solo on one staff in one voice. */
  public SoloDescription(
      String title,
      Map<String, String> creators,
      Map<String, String> miscellaneous,
      String partId,
      String partName,
      String instrument,
      String partReason,
      String chordSource) {
    this(
        title,
        creators,
        miscellaneous,
        partId,
        partName,
        instrument,
        "",
        1,
        partReason,
        chordSource);
  }

  public SoloDescription {
    creators = java.util.Collections.unmodifiableMap(new java.util.TreeMap<>(creators));
    miscellaneous = java.util.Collections.unmodifiableMap(new java.util.TreeMap<>(miscellaneous));
  }
}
