package phrasecensus.composer.harmony;

import java.util.List;

/** The chord kinds the composer writes, under their names in MusicXML. */
public enum ChordKind {
  MAJOR("major", Family.MAJOR, 0, 4, 1),
  MINOR("minor", Family.MINOR, 0, -3, 1),
  AUGMENTED("augmented", Family.DOMINANT, 0, 4, 8),
  DOMINANT("dominant", Family.DOMINANT, 0, 4, 1, -2),
  MAJOR_SEVENTH("major-seventh", Family.MAJOR, 0, 4, 1, 5),
  MINOR_SEVENTH("minor-seventh", Family.MINOR, 0, -3, 1, -2),
  DIMINISHED_SEVENTH("diminished-seventh", Family.DIMINISHED, 0, -3, -6, -9),
  AUGMENTED_SEVENTH("augmented-seventh", Family.DOMINANT, 0, 4, 8, -2),
  HALF_DIMINISHED("half-diminished", Family.HALF_DIMINISHED, 0, -3, -6, -2),
  MAJOR_MINOR("major-minor", Family.MINOR_TONIC, 0, -3, 1, 5),
  MAJOR_SIXTH("major-sixth", Family.MAJOR, 0, 4, 1, 3),
  MINOR_SIXTH("minor-sixth", Family.MINOR_TONIC, 0, -3, 1, 3),
  DOMINANT_NINTH("dominant-ninth", Family.DOMINANT, 0, 4, 1, -2),
  MAJOR_NINTH("major-ninth", Family.MAJOR, 0, 4, 1, 5),
  MINOR_NINTH("minor-ninth", Family.MINOR, 0, -3, 1, -2),
  MINOR_11TH("minor-11th", Family.MINOR, 0, -3, 1, -2),
  DOMINANT_13TH("dominant-13th", Family.DOMINANT, 0, 4, 1, -2),
  SUSPENDED_FOURTH("suspended-fourth", Family.SUSPENDED, 0, -1, 1),
  NONE("none", Family.NONE);

  /** What the line may do over a chord, in rough classes. */
  public enum Family {
    MAJOR,
    MINOR,
    MINOR_TONIC,
    DOMINANT,
    SUSPENDED,
    HALF_DIMINISHED,
    DIMINISHED,
    NONE
  }

  private final String musicXmlName;
  private final Family family;
  private final List<Integer> core;

  ChordKind(String musicXmlName, Family family, Integer... core) {
    this.musicXmlName = musicXmlName;
    this.family = family;
    this.core = List.of(core);
  }

  /** The value of the {@code kind} element. */
  public String musicXmlName() {
    return musicXmlName;
  }

  /** The rough class. */
  public Family family() {
    return family;
  }

  /** Root, third, fifth and seventh (or sixth), as fifths above the root; empty for no chord. */
  public List<Integer> core() {
    return core;
  }
}
