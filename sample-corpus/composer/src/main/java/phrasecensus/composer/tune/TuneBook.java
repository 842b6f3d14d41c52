package phrasecensus.composer.tune;

import java.util.List;

/** The society's book of tunes. All titles and charts are invented. */
public final class TuneBook {
  public static final Tune TARPAULIN_BLUES =
      Tune.of(
          "Tarpaulin Blues",
          "12-bar blues",
          "F",
          4,
          132,
          true,
          "[A] F7 | F7 | F7 | F9 | Bb7 | Bb7 | F7 | F7 | C7 | Bb7 | F7 | C+7");

  public static final Tune CHANDLERS_CAT =
      Tune.of(
          "The Chandler's Cat",
          "12-bar blues, quick change",
          "C",
          4,
          152,
          true,
          "[A] C7 | F7 | C7 | C9 | F7 | F9 | C7 | C7 | G7 | F7 | C6 | G7sus4 G7");

  public static final Tune ELEVEN_WET_STEPS =
      Tune.of(
          "Eleven Wet Steps",
          "12-bar blues with ii-V",
          "Bb",
          4,
          196,
          true,
          "[A] Bb7 | Eb7 | Bb7 | Fm7 Bb7b9 | Eb9 | Edim7 | Bb7/F | Dm7 G7b9 "
              + "| Cm7 | F13 | Bb7 G7b9 | Cm7 F7");

  public static final Tune KELP_LEDGER =
      Tune.of(
          "Kelp Ledger",
          "12-bar minor blues",
          "C minor",
          4,
          126,
          false,
          "[A] Cm7 | Cm7 | Cm9 | Cm7 | Fm7 | Fm9 | Cm7 | Cm6 | Ab7 | G7b9 | Cm7 | NC");

  public static final Tune OILSKIN_WALTZ =
      Tune.of(
          "Oilskin Waltz",
          "32-bar ABAC",
          "G",
          3,
          144,
          false,
          "[A] Gmaj7 | Em7 | Am7 | D7 | Bm7 | E7b9 | Am9 | D13 "
              + "| [B] Dm7 | G7 | Cmaj7 | F7#11 | Gmaj7/D | E7 | A9 | Am7 D7 "
              + "| [A] Gmaj7 | Em7 | Am7 | D7 | Bm7 | E7b9 | Am9 | D13 "
              + "| [C] Dm7 | G13 | Cmaj9 | Cm6 | Bm7 | E7b9 | Am7 D7b9 | G6");

  public static final Tune PONTOON_HOLIDAY =
      Tune.of(
          "Pontoon Holiday",
          "32-bar AABA",
          "Eb",
          4,
          138,
          false,
          "[A] Eb6 | C7 | Fm7 | Bb7 | Gm7 | C7b9 | Fm7 Bb7 | Eb6 Bb7 "
              + "| [A] Eb6 | C7 | Fm7 | Bb7 | Gm7 | C7b9 | Fm7 Bb7 | Eb6 "
              + "| [B] Bbm7 | Eb9 | Abmaj7 | Ab6 | Am7b5 | D7b9 | Gm7 C7 | F7 Bb7sus4 "
              + "| [A] Eb6 | C7 | Fm7 | Bb7 | Gm7 | C7b9 | Fm7 Bb13b9 | Eb69");

  public static final Tune LAMPWICK_LANE =
      Tune.of(
          "Lampwick Lane",
          "32-bar ABAC",
          "F",
          4,
          164,
          false,
          "[A] Fmaj7 | Bb7#11 | Fmaj7/A | Abdim7 | Gm7 | C7 | Am7 D7b9 | Gm7 C7 "
              + "| [B] Cm7 | F7 | Bbmaj7 | Bbm6 | Am7 | D7b9 | G9 | Gm7 C7 "
              + "| [A] Fmaj7 | Bb7#11 | Fmaj7/A | Abdim7 | Gm7 | C7 | Am7 D7b9 | Gm7 C7 "
              + "| [C] Cm7 | F13 | Bb6 | Eb9 | Am7 D7b9 | Gm7 C7b9 | F6 | Gm7 C7");

  public static final Tune LOCK_KEEPER =
      Tune.of(
          "Letter to the Lock Keeper",
          "16-bar song in minor",
          "G minor",
          4,
          86,
          false,
          "[A] Gm6 | Am7b5 D7b9 | Gmmaj7 | Dm7b5 G7b9 | Cm7 | F7 | Bbmaj7 | Ebmaj7 "
              + "| [B] Am7b5 | D+7 | Gm6 | Eb7#11 | Am7b5 | D7b9 | Gm6 | Am7b5 D7b9");

  public static final Tune BARNACLE_ARITHMETIC =
      Tune.of(
          "Barnacle Arithmetic",
          "16-bar song",
          "G",
          4,
          168,
          false,
          "[A] B7 | B7 | E9 | E7 | A13 | A7 | D7 | D7b9 "
              + "| [B] G6 | G7 | Cmaj7 | Cm6 | Bm7 E7b9 | A7 D7 | G | Am7 D7");

  public static final Tune CORMORANT =
      Tune.of(
          "Cormorant in a Hurry",
          "32-bar AABA",
          "Ab",
          4,
          222,
          false,
          "[A] Abmaj7 | Fm7 | Bbm7 | Eb7 | Cm7 | F7b9 | Bbm7 Eb7 | Ab6 Eb7 "
              + "| [A] Abmaj7 | Fm7 | Bbm7 | Eb7 | Cm7 | F7b9 | Bbm7 Eb7 | Ab6 "
              + "| [B] Ebm7 | Ab7 | Dbmaj7 | Gb7#11 | Cm7b5 | F7b9 | Bb9 | Bbm7 Eb7 "
              + "| [A] Abmaj7 | Fm7 | Bbm7 | Eb7 | Cm7 | F7#9 | Bbm7 Eb7 | Ab6");

  public static final Tune GRAVEL_FERRY =
      Tune.of(
          "Gravel Ferry",
          "32-bar ABAC",
          "C",
          4,
          206,
          false,
          "[A] Cmaj7 | Am7 | Dm7 | G7 | Em7 A7b9 | Dm7 G7 | Cmaj7 | Gm7 C7 "
              + "| [B] Fmaj7 | Fm7 Bb7 | Ebmaj7 | Am7b5 D7b9 | G7sus4 | G7 | Dm7 | Db7#11 "
              + "| [A] Cmaj7 | Am7 | Dm7 | G7 | Em7 A7b9 | Dm7 G7 | Cmaj7 | Gm7 C7 "
              + "| [C] Fmaj7 | F#dim7 | C6/G | A+7 | Dm9 | G13b9 | C69 | Dm7 G7");

  public static final Tune SEVEN_FATHOM_LETTER =
      Tune.of(
          "Seven Fathom Letter",
          "32-bar AABA in minor",
          "D minor",
          4,
          184,
          false,
          "[A] Dm6 | Em7b5 A7b9 | Dmmaj7 | D7b9 | Gm7 | Em7b5 | A7b9 | Dm6 "
              + "| [A] Dm6 | Em7b5 A7b9 | Dmmaj7 | D7b9 | Gm7 | Em7b5 | A7b9 | Dm6 "
              + "| [B] Gm7 | C9 | Fmaj7 | Bbmaj7 | Em7b5 | A7#9 | D7b5 | Em7b5 A7b9 "
              + "| [A] Dm6 | Em7b5 A7b9 | Dmmaj7 | D7b9 | Gm7 | Em7b5 | A+7 | Dm6");

  public static final Tune SLACK_TIDE =
      Tune.of(
          "Spring Tide, Slack Tide",
          "32-bar modal AABA",
          "F minor",
          4,
          148,
          false,
          "[A] Fm9 | Fm9 | Fm9 | Fm9 | Fm7 | Fm7 | Fm7 | Fm7 "
              + "| [A] Fm9 | Fm9 | Fm9 | Fm9 | Fm7 | Fm7 | Fm7 | Fm7 "
              + "| [B] Abm7 | Abm7 | Abm7 | Abm7 | Bbm7 | Bbm7 | C7sus4 | C7sus4 "
              + "| [A] Fm9 | Fm9 | Fm9 | Fm9 | Fm7 | Fm7 | Fm7 | Fm7");

  public static final Tune FOG_SIGNAL =
      Tune.of(
          "Fog Signal Practice",
          "16-bar modal",
          "A minor",
          4,
          172,
          false,
          "[A] Am7 | Am7 | Am7 | Am7 | Cm7 | Cm7 | Cm11 | Cm7 "
              + "| [B] Am7 | Am7 | Am7 | Am7 | Bm7 | Bm7 | E7sus4 | E7sus4");

  public static final Tune SLACK_WATER_WALTZ =
      Tune.of(
          "Slack Water Waltz",
          "16-bar modal",
          "D minor",
          3,
          132,
          false,
          "[A] Dm7 | Dm7 | Dm7 | Dm7 | Fm7 | Fm7 | Fm7 | Fm7 "
              + "| [B] Dm9 | Dm9 | Dm7 | Dm7 | Gm7 | Gm7 | A7sus4 | A7sus4");

  /** Every tune, in the order of the book. */
  public static final List<Tune> ALL =
      List.of(
          TARPAULIN_BLUES,
          CHANDLERS_CAT,
          ELEVEN_WET_STEPS,
          KELP_LEDGER,
          OILSKIN_WALTZ,
          PONTOON_HOLIDAY,
          LAMPWICK_LANE,
          LOCK_KEEPER,
          BARNACLE_ARITHMETIC,
          CORMORANT,
          GRAVEL_FERRY,
          SEVEN_FATHOM_LETTER,
          SLACK_TIDE,
          FOG_SIGNAL,
          SLACK_WATER_WALTZ);

  private TuneBook() {}
}
