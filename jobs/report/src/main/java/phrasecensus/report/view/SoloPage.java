package phrasecensus.report.view;

import java.util.ArrayList;
import java.util.List;
import phrasecensus.report.listen.Sound;
import phrasecensus.report.picture.Picture;
import phrasecensus.report.picture.Timeline;
import phrasecensus.report.rows.Neighbour;
import phrasecensus.report.rows.SoloLine;
import phrasecensus.report.rows.Student;
import phrasecensus.report.rows.StudentSolo;
import phrasecensus.report.rows.Value;
import phrasecensus.report.wording.FileText;
import phrasecensus.report.wording.Text;
import phrasecensus.report.wording.Wording;

/**
 * The page of one solo of a student: for the stand.
 *
 * @param student link to the student's page
 * @param facts instrument, metre, tempo, centre, counts
 * @param file path of its file; empty when left out
 * @param score the whole line
 * @param lines the line along the time, four bars each; empty when excerpts are left out
 * @param beside what it is compared with: solos, players, which group, and why
 * @param none what to say where nothing stands apart
 * @param apart where it stands apart from the corpus; null where it does not
 * @param phrases phrase by phrase; null without phrases
 * @param near corpus solos that are like it; null where there are none, or no table of them
 * @param unlike what to say where the nearest is not like it; empty otherwise
 * @param before the solo before it; null for the first
 * @param after the solo after it; null for the last
 * @param excerpts false when notes are left out
 */
public record SoloPage(
    Shell shell,
    Shell.Link student,
    String heading,
    String facts,
    String file,
    Score score,
    List<Listen> sounds,
    List<Picture> lines,
    String beside,
    String none,
    Grid apart,
    Grid phrases,
    Grid near,
    String unlike,
    Shell.Link before,
    Shell.Link after,
    boolean excerpts) {

  /** Makes the page of a solo. */
  static SoloPage of(PageSource source, Student student, int place, Shell shell) {
    StudentSolo solo = student.solos().get(place);
    StudentFigures figures = new StudentFigures(source, student, solo.facts().soloId());
    boolean excerpts = source.settings().excerpts();
    return new SoloPage(
        shell,
        new Shell.Link(source.names().page(student), source.names().student(student)),
        source.names().solo(student, place),
        figures.facts(solo),
        source.settings().pseudonyms() ? "" : FileText.printable(solo.facts().file()),
        excerpts ? source.scores().of("score", solo.line(), solo.facts().keyFifths()) : Score.NONE,
        excerpts ? sounds(source.names().page(student, place), solo) : List.of(),
        excerpts && !solo.line().notes().isEmpty()
            ? new Timeline(source.numbers()).pictures("line", solo.line())
            : List.of(),
        Text.of("solo.apart.beside", figures.size(), figures.reason()).strip(),
        Text.of("solo.apart.none", figures.beside()),
        apart(figures, solo),
        phrases(source, solo),
        near(figures, solo),
        solo.neighbours().isEmpty() || solo.isLikeAny() ? "" : Text.of("solo.near.none"),
        place == 0 ? null : link(source, student, place - 1),
        place == student.solos().size() - 1 ? null : link(source, student, place + 1),
        excerpts);
  }

  /**
   * A sound to listen to.
   *
   * @param words what it is
   */
  public record Listen(String words, Sound sound) {}

  private static List<Listen> sounds(String page, StudentSolo solo) {
    String stem = page.replace(".html", "");
    SoloLine line = solo.line();
    List<Listen> sounds = new ArrayList<>();
    Sound whole = Sound.of(stem, solo.facts(), line);
    if (whole != null) {
      sounds.add(new Listen(Text.of("listen.whole"), whole));
    }
    for (SoloLine.PhraseSpan phrase : line.phrases()) {
      int number = phrase.index() + 1;
      Sound sound = Sound.of(stem + "-phrase-" + number, solo.facts(), line, phrase);
      if (sound != null) {
        sounds.add(
            new Listen(Text.of("listen.phrase", number, StudentFigures.bars(phrase)), sound));
      }
    }
    return sounds;
  }

  private static Shell.Link link(PageSource source, Student student, int place) {
    return new Shell.Link(source.names().page(student, place), source.names().solo(student, place));
  }

  private static Grid apart(StudentFigures figures, StudentSolo solo) {
    Grid.Builder grid =
        figures.comparisons(Text.of("solo.apart.table", figures.beside()), Text.of("table.what"));
    for (Wording.Standing standing : figures.ranked(false, solo.facts().soloId())) {
      if (grid.size() < StudentDepartures.MOST) {
        figures.addTo(grid, Wording.capitalised(Wording.direction(standing)), standing);
      }
    }
    return grid.size() == 0 ? null : grid.build();
  }

  private static Grid phrases(PageSource source, StudentSolo solo) {
    SoloLine line = solo.line();
    if (line.phrases().isEmpty()) {
      return null;
    }
    String[] columns = Text.of("solo.phrases.columns").split("\\|");
    Grid.Builder grid = Grid.of(Text.of("solo.phrases")).numbers(columns[0]).words(columns[1]);
    for (int i = 2; i < columns.length - 1; i++) {
      grid.numbers(columns[i]);
    }
    grid.words(columns[columns.length - 1]);
    for (SoloLine.PhraseSpan phrase : line.phrases()) {
      String first = FileText.printable(phrase.firstBar());
      String last = FileText.printable(phrase.lastBar());
      grid.row(
          source.numbers().count(phrase.index() + 1L),
          first.equals(last) ? first : first + "\u2013" + last,
          phrase.lengthBars() == null
              ? Text.of("value.dash")
              : source.numbers().decimal(phrase.lengthBars(), 2),
          source.numbers().count(phrase.notes()),
          cell(source, solo.value(phrase.index(), "phrase_start_beat"), 2),
          cell(source, solo.value(phrase.index(), "phrase_end_beat"), 2),
          cell(source, solo.value(phrase.index(), "silence_after_beats"), 2),
          cell(source, solo.value(phrase.index(), "phrase_range"), 0),
          StudentFigures.landings(line, phrase));
    }
    return grid.build();
  }

  private static String cell(PageSource source, Value value, int decimals) {
    return value.isDefined()
        ? source.numbers().decimal(value.value(), decimals)
        : Text.of("value.dash");
  }

  private static Grid near(StudentFigures figures, StudentSolo solo) {
    if (!solo.isLikeAny()) {
      return null;
    }
    String[] columns = Text.of("solo.near.columns").split("\\|");
    Grid.Builder grid =
        Grid.of(Text.of("solo.near.table"))
            .numbers(columns[0])
            .words(columns[1])
            .numbers(columns[2], columns[3])
            .words(columns[4]);
    for (Neighbour neighbour : solo.neighbours()) {
      List<String> cells = new ArrayList<>(List.of(String.valueOf(neighbour.place())));
      cells.addAll(figures.neighbour(neighbour));
      grid.row(cells);
    }
    return grid.build();
  }
}
