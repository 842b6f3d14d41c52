package phrasecensus.spark;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import phrasecensus.music.time.Fraction;
import phrasecensus.store.parquet.ColumnScan;

/** The notes of one part, phrase by phrase, in their order. */
final class PhraseScan implements AutoCloseable {
  private final ColumnScan scan;
  private Object[] ahead;

  private PhraseScan(ColumnScan scan) throws IOException {
    this.scan = scan;
    this.ahead = scan.next();
  }

  /**
   * A phrase.
   *
   * @param firstNote index of its first note in the solo
   * @param midi sounding pitches
   * @param onsets in quarter notes, as many
   * @param bars text of the bar of each note
   */
  record Phrase(
      String soloId,
      int phraseIndex,
      int firstNote,
      int[] midi,
      Fraction[] onsets,
      List<String> bars) {}

  static PhraseScan open(TableParts.Part part) throws IOException {
    return new PhraseScan(
        part.scan(
            "notes",
            "solo_id",
            "phrase_index",
            "note_index",
            "onset_num",
            "onset_den",
            "midi_concert",
            "bar_number"));
  }

  /** The next phrase; null after the last. */
  Phrase next() throws IOException {
    if (ahead == null) {
      return null;
    }
    Object[] first = ahead;
    List<Integer> midi = new ArrayList<>();
    List<Fraction> onsets = new ArrayList<>();
    List<String> bars = new ArrayList<>();
    while (ahead != null && ahead[0].equals(first[0]) && ahead[1].equals(first[1])) {
      onsets.add(Fraction.of((Long) ahead[3], (Long) ahead[4]));
      midi.add((Integer) ahead[5]);
      bars.add((String) ahead[6]);
      ahead = scan.next();
    }
    return new Phrase(
        (String) first[0],
        (Integer) first[1],
        (Integer) first[2],
        midi.stream().mapToInt(Integer::intValue).toArray(),
        onsets.toArray(Fraction[]::new),
        List.copyOf(bars));
  }

  @Override
  public void close() throws IOException {
    scan.close();
  }
}
