package phrasecensus.composer.cast;

import java.util.List;
import phrasecensus.composer.line.Habits;

/** The invented players of the Ferry House Evening Music Society at Skerrowick. */
public final class Society {
  public static final Player ODILE_MARRACK =
      new Player(
          "Odile Marrack",
          Instrument.CLARINET,
          new Habits(1.1, 1.3, 0.95, 1, 0.1, List.of("triplet arpeggio", "turn")));

  public static final Player ANSELM_THORLEY =
      new Player(
          "Anselm Thorley",
          Instrument.CLARINET,
          new Habits(0.85, 0.8, 1.15, -3, -0.2, List.of("blue third", "minor climb")));

  public static final Player TAMSIN_ORCHARD =
      new Player(
          "Tamsin Orchard",
          Instrument.FLUGELHORN,
          new Habits(0.75, 0.9, 1.2, 0, 0, List.of("one two three five", "five-note scale down")));

  public static final Player RENEE_AUBEPIN =
      new Player(
          "Renée Aubépin",
          Instrument.FLUGELHORN,
          new Habits(1.15, 1.0, 0.95, 1, 0.2, List.of("enclosed third", "third to flat ninth")));

  public static final Player BERTRAND_QUILL =
      new Player(
          "Bertrand Quill",
          Instrument.TROMBONE,
          new Habits(0.8, 0.7, 1.1, 1, -0.1, List.of("sixth and blue fifth", "enclosed fifth")));

  public static final Player INES_VARROW =
      new Player(
          "Ines Varrow",
          Instrument.VIBRAPHONE,
          new Habits(1.2, 1.2, 0.95, 0, 0.15, List.of("third to ninth", "stacked fourths")));

  public static final Player LORCAN_PETTIBONE =
      new Player(
          "Lorcan Pettibone",
          Instrument.GUITAR,
          new Habits(1.15, 0.9, 0.9, 1, 0.2, List.of("fifth by semitones", "passing seventh")));

  public static final Player FREYA_SANDLING =
      new Player(
          "Freya Sandling",
          Instrument.ALTO_FLUTE,
          new Habits(0.9, 1.2, 1.2, -1, -0.1, List.of("falling fourths", "stacked fourths")));

  /** Every corpus player, by name. */
  public static final List<Player> PLAYERS =
      List.of(
          ANSELM_THORLEY,
          BERTRAND_QUILL,
          FREYA_SANDLING,
          INES_VARROW,
          LORCAN_PETTIBONE,
          ODILE_MARRACK,
          RENEE_AUBEPIN,
          TAMSIN_ORCHARD);

  public static final Player PIM_GARROW =
      new Player("Pim Garrow", Instrument.GUITAR, new Habits(1, 1, 1, 0, 0, List.of("turn")));

  public static final Player HESTER_LOOM =
      new Player(
          "Hester Loom", Instrument.TROMBONE, new Habits(1, 1, 1, 0, 0, List.of("enclosed fifth")));

  public static final Player JORY_VENN =
      new Player(
          "Jory Venn",
          Instrument.CLARINET,
          new Habits(1, 1, 1, 0, 0, List.of("third to ninth", "enclosed third")));

  private Society() {}
}
