package phrasecensus.composer.cast;

import phrasecensus.composer.line.Compass;

/**
 * The instruments of the society. Ranges and transpositions are common practice, no source; the
 * comfortable compass is narrower.
 */
public enum Instrument {
  CLARINET("clarinet in Bb", "Clarinet in B flat", -2, -1, 0, 50, 94, new Compass(53, 84, true)),
  FLUGELHORN(
      "flugelhorn in Bb", "Flugelhorn in B flat", -2, -1, 0, 52, 79, new Compass(54, 77, true)),
  TROMBONE("trombone", "Trombone", 0, 0, 0, 40, 72, new Compass(46, 70, true)),
  VIBRAPHONE("vibraphone", "Vibraphone", 0, 0, 0, 53, 89, new Compass(56, 86, false)),
  GUITAR("guitar", "Guitar", 0, 0, -1, 40, 88, new Compass(48, 78, false)),
  ALTO_FLUTE("alto flute in G", "Alto Flute in G", -5, -3, 0, 55, 91, new Compass(57, 84, true));

  private final String name;
  private final String partName;
  private final int chromatic;
  private final int diatonic;
  private final int octaveChange;
  private final int low;
  private final int high;
  private final Compass compass;

  Instrument(
      String name,
      String partName,
      int chromatic,
      int diatonic,
      int octaveChange,
      int low,
      int high,
      Compass compass) {
    this.name = name;
    this.partName = partName;
    this.chromatic = chromatic;
    this.diatonic = diatonic;
    this.octaveChange = octaveChange;
    this.low = low;
    this.high = high;
    this.compass = compass;
  }

  /** Name in the tables. */
  public String tableName() {
    return name;
  }

  /** Name on the score. */
  public String partName() {
    return partName;
  }

  /** Semitones from written to sounding pitch, octaves left out. */
  public int chromatic() {
    return chromatic;
  }

  /** Steps from written to sounding pitch, octaves left out. */
  public int diatonic() {
    return diatonic;
  }

  /** Octaves from written to sounding pitch. */
  public int octaveChange() {
    return octaveChange;
  }

  /** Fifths from sounding to written names: 2 for an instrument in B flat. */
  public int fifthsToWritten() {
    return 12 * diatonic - 7 * chromatic;
  }

  /** Lowest sounding MIDI number. */
  public int low() {
    return low;
  }

  /** Highest sounding MIDI number. */
  public int high() {
    return high;
  }

  /** What players here use. */
  public Compass compass() {
    return compass;
  }

  /** True when the part stands in the bass clef. */
  public boolean bassClef() {
    return this == TROMBONE;
  }
}
