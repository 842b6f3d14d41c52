package phrasecensus.composer.line;

import java.util.Map;

/**
 * What makes a style, in numbers.
 *
 * @param name invented name
 * @param phraseBeats median length of a phrase in beats
 * @param phraseSpread spread of the logarithm of that length
 * @param restBeats median silence between phrases in beats
 * @param restSpread spread of the logarithm of that silence
 * @param cells weight of each beat cell
 * @param offbeatStart share of phrases that begin off the beat
 * @param chordPull how strongly chord tones draw the line, in log weight on a strong beat
 * @param chromatic log weight of a note outside the scale, off the beat
 * @param blue log weight of the blue third and fifth in a blues
 * @param fourths log weight added to leaps of a fourth or fifth
 * @param motif share of phrases that answer the one before with its motif
 * @param figures chance that a learned figure is put where it fits
 * @param detached chance that a longer note inside a phrase is cut short
 */
public record Style(
    String name,
    double phraseBeats,
    double phraseSpread,
    double restBeats,
    double restSpread,
    Map<BeatCell, Double> cells,
    double offbeatStart,
    double chordPull,
    double chromatic,
    double blue,
    double fourths,
    double motif,
    double figures,
    double detached) {
  /** Relaxed, bluesy, much space, quarters and triplets among the eighths. */
  public static final Style QUAYSIDE_SWING =
      new Style(
          "quayside swing",
          7.6,
          0.50,
          3.2,
          0.42,
          Map.ofEntries(
              Map.entry(BeatCell.EIGHTHS, 5.2),
              Map.entry(BeatCell.QUARTER, 1.5),
              Map.entry(BeatCell.OFFBEAT, 1.3),
              Map.entry(BeatCell.TRIPLET, 1.0),
              Map.entry(BeatCell.LONG_SHORT, 0.3),
              Map.entry(BeatCell.DOTTED, 0.35),
              Map.entry(BeatCell.TURN, 0.1),
              Map.entry(BeatCell.CHARLESTON, 0.5),
              Map.entry(BeatCell.SYNCOPATED, 0.8),
              Map.entry(BeatCell.QUARTER_TRIPLET, 0.25),
              Map.entry(BeatCell.HALF, 0.15)),
          0.58,
          0.7,
          -2.3,
          0.5,
          0.0,
          0.40,
          0.35,
          0.30);

  /** Long running eighths, chromatic, quick. */
  public static final Style HEADLAND_BOP =
      new Style(
          "headland bop",
          10.2,
          0.55,
          3.4,
          0.38,
          Map.ofEntries(
              Map.entry(BeatCell.EIGHTHS, 12.0),
              Map.entry(BeatCell.QUARTER, 0.9),
              Map.entry(BeatCell.OFFBEAT, 1.0),
              Map.entry(BeatCell.TRIPLET, 1.3),
              Map.entry(BeatCell.TURN, 0.35),
              Map.entry(BeatCell.TWO_ONE, 0.15),
              Map.entry(BeatCell.CHARLESTON, 0.1),
              Map.entry(BeatCell.SYNCOPATED, 0.35)),
          0.66,
          0.65,
          -1.3,
          0.0,
          -0.2,
          0.22,
          0.45,
          0.15);

  /** Motifs, fourths, held notes and air over few chords. */
  public static final Style TIDAL_MODAL =
      new Style(
          "tidal modal",
          8.6,
          0.55,
          4.1,
          0.45,
          Map.ofEntries(
              Map.entry(BeatCell.EIGHTHS, 2.0),
              Map.entry(BeatCell.QUARTER, 2.4),
              Map.entry(BeatCell.OFFBEAT, 1.9),
              Map.entry(BeatCell.TRIPLET, 0.5),
              Map.entry(BeatCell.DOTTED, 0.1),
              Map.entry(BeatCell.CHARLESTON, 0.8),
              Map.entry(BeatCell.SYNCOPATED, 1.1),
              Map.entry(BeatCell.QUARTER_TRIPLET, 0.45),
              Map.entry(BeatCell.HALF, 0.8)),
          0.60,
          0.55,
          -3.6,
          0.0,
          1.0,
          0.48,
          0.40,
          0.10);

  /** Copies the weights in. */
  public Style {
    cells = Map.copyOf(cells);
  }
}
