package phrasecensus.composer.cast;

import java.text.Normalizer;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import phrasecensus.composer.line.Departure;
import phrasecensus.composer.line.Style;
import phrasecensus.composer.score.Dialect;
import phrasecensus.composer.tune.Tune;
import phrasecensus.composer.tune.TuneBook;

/** Everything the composer writes: who plays which tune in which style, and the students' solos. */
public final class Programme {
  /** Seed of the first corpus solo; the others follow by one. */
  private static final long CORPUS_SEED = 41_000;

  private static final List<Tune> SWING =
      List.of(
          TuneBook.TARPAULIN_BLUES,
          TuneBook.PONTOON_HOLIDAY,
          TuneBook.LAMPWICK_LANE,
          TuneBook.CHANDLERS_CAT,
          TuneBook.OILSKIN_WALTZ,
          TuneBook.BARNACLE_ARITHMETIC,
          TuneBook.LOCK_KEEPER);

  private static final List<Tune> BOP =
      List.of(
          TuneBook.GRAVEL_FERRY,
          TuneBook.ELEVEN_WET_STEPS,
          TuneBook.SEVEN_FATHOM_LETTER,
          TuneBook.CORMORANT,
          TuneBook.BARNACLE_ARITHMETIC);

  private static final List<Tune> MODAL =
      List.of(
          TuneBook.SLACK_TIDE,
          TuneBook.KELP_LEDGER,
          TuneBook.FOG_SIGNAL,
          TuneBook.SLACK_WATER_WALTZ);

  private static final List<Dialect> DIALECTS =
      List.of(
          Dialect.ENGRAVED,
          Dialect.PLAIN,
          Dialect.CHORDS_IN_PIANO,
          Dialect.CONCERT,
          Dialect.ZIPPED,
          Dialect.PLAIN,
          Dialect.ENGRAVED,
          Dialect.OFFSETS,
          Dialect.LATIN,
          Dialect.CHORDS_IN_BOTH,
          Dialect.PLAIN,
          Dialect.ENGRAVED,
          Dialect.CONCERT);

  /** How far each student departs, solo after solo. */
  private static final List<Double> STRENGTHS = List.of(1.0, 0.8, 0.6, 0.4, 0.25);

  private Programme() {}

  /** The corpus: 20 solos in each of three styles by eight players. */
  public static List<Commission> corpus() {
    List<Commission> all = new ArrayList<>();
    add(all, Style.QUAYSIDE_SWING, SWING, Society.ODILE_MARRACK, 4, 0);
    add(all, Style.QUAYSIDE_SWING, SWING, Society.ANSELM_THORLEY, 3, 4);
    add(all, Style.QUAYSIDE_SWING, SWING, Society.TAMSIN_ORCHARD, 4, 1);
    add(all, Style.QUAYSIDE_SWING, SWING, Society.BERTRAND_QUILL, 4, 3);
    add(all, Style.QUAYSIDE_SWING, SWING, Society.LORCAN_PETTIBONE, 3, 0);
    add(all, Style.QUAYSIDE_SWING, SWING, Society.FREYA_SANDLING, 2, 5);
    add(all, Style.HEADLAND_BOP, BOP, Society.ODILE_MARRACK, 4, 0);
    add(all, Style.HEADLAND_BOP, BOP, Society.RENEE_AUBEPIN, 4, 1);
    add(all, Style.HEADLAND_BOP, BOP, Society.BERTRAND_QUILL, 4, 4);
    add(all, Style.HEADLAND_BOP, BOP, Society.INES_VARROW, 4, 2);
    add(all, Style.HEADLAND_BOP, BOP, Society.LORCAN_PETTIBONE, 4, 3);
    add(all, Style.TIDAL_MODAL, MODAL, Society.ANSELM_THORLEY, 4, 0);
    add(all, Style.TIDAL_MODAL, MODAL, Society.TAMSIN_ORCHARD, 4, 0);
    add(all, Style.TIDAL_MODAL, MODAL, Society.RENEE_AUBEPIN, 4, 0);
    add(all, Style.TIDAL_MODAL, MODAL, Society.INES_VARROW, 4, 0);
    add(all, Style.TIDAL_MODAL, MODAL, Society.FREYA_SANDLING, 4, 0);
    return List.copyOf(all);
  }

  private static void add(
      List<Commission> all, Style style, List<Tune> tunes, Player player, int count, int from) {
    for (int i = 0; i < count; i++) {
      Tune tune = tunes.get((from + i) % tunes.size());
      int number = all.size();
      Dialect dialect = DIALECTS.get(number % DIALECTS.size());
      if (player == Society.RENEE_AUBEPIN && i == 0) {
        dialect = style == Style.HEADLAND_BOP ? Dialect.LATIN : Dialect.WIDE;
      }
      int tempo = tune.tempo() + (number * 7) % 17 - 8;
      int choruses =
          switch (tune.bars().size()) {
            case 12 -> 3 + number % 2;
            case 16 -> 2 + number % 3 / 2;
            default -> number % 10 == 3 ? 2 : 1;
          };
      String file = "corpus/" + fileName(tune, player, style) + "." + dialect.extension();
      all.add(
          new Commission(
              file,
              player,
              style,
              tune,
              choruses,
              tempo,
              dialect,
              Departure.NONE,
              "",
              CORPUS_SEED + number));
    }
  }

  /**
   * The students' solos, each student's in order of date. A solo has some twenty phrases, so chance
   * can hide a departure: the seeds are those of 200 each whose figures lie nearest the stated
   * line.
   */
  public static List<Commission> students() {
    List<Commission> all = new ArrayList<>();
    student(
        all,
        Society.PIM_GARROW,
        Style.QUAYSIDE_SWING,
        Departure.Kind.NO_RESTS,
        List.of(
            TuneBook.LAMPWICK_LANE,
            TuneBook.PONTOON_HOLIDAY,
            TuneBook.TARPAULIN_BLUES,
            TuneBook.LAMPWICK_LANE,
            TuneBook.CHANDLERS_CAT),
        List.of("2025-09-13", "2025-12-06", "2026-03-14", "2026-06-20", "2026-09-26"),
        List.of(51_042L, 51_245L, 51_473L, 51_628L, 51_822L));
    student(
        all,
        Society.HESTER_LOOM,
        Style.QUAYSIDE_SWING,
        Departure.Kind.LONG_NOTES,
        List.of(
            TuneBook.TARPAULIN_BLUES,
            TuneBook.PONTOON_HOLIDAY,
            TuneBook.CHANDLERS_CAT,
            TuneBook.LAMPWICK_LANE,
            TuneBook.TARPAULIN_BLUES),
        List.of("2025-10-04", "2026-01-10", "2026-04-11", "2026-07-04", "2026-10-03"),
        List.of(52_171L, 52_284L, 52_442L, 52_654L, 52_994L));
    student(
        all,
        Society.JORY_VENN,
        Style.HEADLAND_BOP,
        Departure.Kind.IGNORES_CHANGES,
        List.of(
            TuneBook.GRAVEL_FERRY,
            TuneBook.ELEVEN_WET_STEPS,
            TuneBook.SEVEN_FATHOM_LETTER,
            TuneBook.GRAVEL_FERRY,
            TuneBook.ELEVEN_WET_STEPS),
        List.of("2025-09-20", "2025-12-13", "2026-03-21", "2026-06-13", "2026-09-19"),
        List.of(53_041L, 53_380L, 53_511L, 53_669L, 53_903L));
    return List.copyOf(all);
  }

  private static void student(
      List<Commission> all,
      Player player,
      Style style,
      Departure.Kind kind,
      List<Tune> tunes,
      List<String> dates,
      List<Long> seeds) {
    List<Dialect> dialects =
        List.of(Dialect.PLAIN, Dialect.ENGRAVED, Dialect.PLAIN, Dialect.ZIPPED, Dialect.CONCERT);
    for (int i = 0; i < tunes.size(); i++) {
      Tune tune = tunes.get(i);
      int choruses = tune.bars().size() == 12 ? 5 : 2;
      String file =
          "students/"
              + slug(player.name())
              + "/"
              + dates.get(i)
              + "-"
              + slug(tune.title())
              + "."
              + dialects.get(i).extension();
      all.add(
          new Commission(
              file,
              player,
              style,
              tune,
              choruses,
              tune.tempo() - 8,
              dialects.get(i),
              new Departure(kind, STRENGTHS.get(i)),
              dates.get(i),
              seeds.get(i)));
    }
  }

  private static String fileName(Tune tune, Player player, Style style) {
    String family = slug(player.name().substring(player.name().indexOf(' ') + 1));
    String manner = style.name().substring(0, style.name().indexOf(' '));
    return slug(tune.title()) + "-" + family + "-" + manner;
  }

  /** Lower-case ASCII letters, digits and hyphens. */
  static String slug(String text) {
    return Normalizer.normalize(text, Normalizer.Form.NFD)
        .replaceAll("[\\p{M}']", "")
        .toLowerCase(Locale.ROOT)
        .replaceAll("[^a-z0-9]+", "-")
        .replaceAll("^-|-$", "");
  }
}
