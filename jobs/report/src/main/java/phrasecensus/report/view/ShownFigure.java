package phrasecensus.report.view;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import phrasecensus.report.rows.Figure;
import phrasecensus.report.rows.SoloFacts;
import phrasecensus.report.rows.SoloLine;
import phrasecensus.report.rows.Student;
import phrasecensus.report.rows.StudyRows;
import phrasecensus.report.wording.FileText;
import phrasecensus.report.wording.Text;

/**
 * A recurring figure as a page shows it. A pattern of intervals has no notation of its own: what is
 * shown is one place where it was played.
 *
 * @param heading how many notes it has, and its intervals
 * @param found how often it is found, sentences
 * @param excerpts places in notation, those of the student first; without any where notes are left
 *     out
 * @param places solo by solo; null without any
 * @param more what of the places is not listed; may be empty
 */
public record ShownFigure(
    String heading, List<String> found, List<Excerpt> excerpts, Grid places, String more) {
  public ShownFigure {
    found = List.copyOf(found);
    excerpts = List.copyOf(excerpts);
  }

  /** What the solos of the corpus share. */
  static List<ShownFigure> ofCorpus(PageSource source) {
    List<Figure> figures = source.rows().figures().ofCorpus();
    prepare(source, figures);
    List<ShownFigure> shown = new ArrayList<>();
    for (Figure figure : figures) {
      Maker maker = new Maker(source, figure, "figure-" + (shown.size() + 1));
      shown.add(
          new ShownFigure(
              maker.heading(),
              List.of(maker.told("figure.corpus")),
              maker.inCorpus(figure.row().exampleSoloId()).stream().toList(),
              maker.grid(null),
              maker.more()));
    }
    return List.copyOf(shown);
  }

  /** The same told in words alone, for a page that leads there; empty without any. */
  static List<ShownFigure> told(PageSource source) {
    return source.rows().figures().ofCorpus().stream()
        .map(figure -> new Maker(source, figure, ""))
        .map(
            maker ->
                new ShownFigure(
                    maker.heading(), List.of(maker.told("figure.corpus")), List.of(), null, ""))
        .toList();
  }

  /** What a student comes back to, and who else plays it. */
  static List<ShownFigure> ofStudent(PageSource source, Student student) {
    List<Figure> figures = source.rows().figures().ofStudent(student.name());
    prepare(source, figures);
    List<ShownFigure> shown = new ArrayList<>();
    for (Figure figure : figures) {
      Maker maker = new Maker(source, figure, "figure-" + (shown.size() + 1));
      List<Excerpt> excerpts = new ArrayList<>(maker.own(student).stream().toList());
      figure.ofCorpus().stream()
          .findFirst()
          .flatMap(other -> maker.inCorpus(other.soloId()))
          .ifPresent(excerpts::add);
      shown.add(
          new ShownFigure(
              maker.heading(),
              List.of(maker.inOwn(), maker.elsewhere()),
              excerpts,
              maker.grid(student),
              maker.more()));
    }
    return List.copyOf(shown);
  }

  /** Reads what is known of the solos that are listed, and the lines of those that are drawn. */
  private static void prepare(PageSource source, List<Figure> figures) {
    Set<String> listed = new TreeSet<>();
    Set<String> drawn = new TreeSet<>();
    for (Figure figure : figures) {
      figure.ofCorpus().forEach(solo -> listed.add(solo.soloId()));
      figure.ofCorpus().stream().findFirst().ifPresent(solo -> drawn.add(solo.soloId()));
    }
    source.rows().prepareSolos(listed);
    if (source.settings().excerpts()) {
      source.rows().prepareLines(drawn);
    }
  }

  /** Words and pictures of one figure. */
  private record Maker(PageSource source, Figure figure, String id) {
    private StudyRows rows() {
      return source.rows();
    }

    /** Without intervals where the notes of solos are left out: they tell the notes. */
    String heading() {
      String notes = source.wording().counted(figure.row().length() + 1, "note");
      return source.settings().excerpts()
          ? Text.of("figure.heading", notes, figure.row().pattern().replace('-', '\u2212'))
          : Text.of("figure.heading.left-out", notes);
    }

    private String counted(long number, String noun) {
      return source.wording().counted(number, noun);
    }

    String told(String key) {
      int players = figure.row().corpusPlayers();
      return Text.of(
          key,
          counted(figure.row().corpusSolos(), "corpus solo"),
          players == 0 ? Text.of("figure.unnamed") : counted(players, "named player"),
          counted(figure.row().corpusWindows(), "place"));
    }

    String inOwn() {
      return Text.of(
          "figure.own",
          counted(figure.row().studentWindows(), "place"),
          counted(figure.row().studentSolos(), "solo"));
    }

    String elsewhere() {
      if (figure.row().corpusSolos() == 0) {
        return Text.of("figure.nobody");
      }
      return told("figure.others");
    }

    /** The first place in a solo of the corpus. */
    Optional<Excerpt> inCorpus(String soloId) {
      Optional<Figure.InSolo> found =
          figure.ofCorpus().stream().filter(solo -> solo.soloId().equals(soloId)).findFirst();
      Optional<SoloFacts> facts = rows().corpusSolo(soloId);
      if (!source.settings().excerpts() || found.isEmpty() || facts.isEmpty()) {
        return Optional.empty();
      }
      return excerpt(
          id + "-corpus",
          StudentFigures.corpusSolo(facts.get().title(), facts.get().performer(), soloId),
          facts.get(),
          rows().corpusLine(soloId),
          found.get().firstNote());
    }

    /** The place that shows it in the student's solos. */
    Optional<Excerpt> own(Student student) {
      for (int i = 0; i < student.solos().size() && source.settings().excerpts(); i++) {
        SoloFacts facts = student.solos().get(i).facts();
        if (facts.soloId().equals(figure.row().exampleSoloId())) {
          return excerpt(
              id + "-own",
              FileText.withoutDirection(source.names().solo(student, i)),
              facts,
              student.solos().get(i).line(),
              figure.row().exampleNoteIndex());
        }
      }
      return Optional.empty();
    }

    private Optional<Excerpt> excerpt(
        String name, String solo, SoloFacts facts, SoloLine line, int firstNote) {
      int lastNote = firstNote + figure.row().length();
      if (lastNote >= line.notes().size()) {
        return Optional.empty();
      }
      SoloLine.Tone first = line.notes().get(firstNote);
      SoloLine.Tone last = line.notes().get(lastNote);
      SoloLine.PhraseSpan span =
          new SoloLine.PhraseSpan(
              0,
              firstNote,
              lastNote,
              first.onset(),
              last.end(),
              bar(line, first),
              bar(line, last),
              null,
              line.phrases().stream()
                  .filter(phrase -> phrase.firstNote() <= firstNote)
                  .filter(phrase -> phrase.lastNote() >= lastNote)
                  .findFirst()
                  .map(SoloLine.PhraseSpan::quartersPerMinute)
                  .orElse(null));
      Excerpt excerpt =
          Excerpt.of(
              source.scores(),
              name,
              Text.of("student.apart.excerpt", solo, StudentFigures.bars(span)),
              "",
              facts,
              line,
              span);
      return excerpt.score().isEmpty() ? Optional.empty() : Optional.of(excerpt);
    }

    private static String bar(SoloLine line, SoloLine.Tone tone) {
      String number = "";
      for (SoloLine.BarSpan bar : line.bars()) {
        if (!bar.exactOnset().isAfter(tone.exactOnset())) {
          number = bar.number();
        }
      }
      return number;
    }

    /**
     * Where it is found, solo by solo.
     *
     * @param student whose figure it is; null for one of the corpus
     */
    Grid grid(Student student) {
      String[] columns = Text.of("figure.columns").split("\\|");
      Grid.Builder grid =
          Grid.of(Text.of("figure.table"))
              .words(columns[0], columns[1], columns[2])
              .numbers(columns[3]);
      for (int i = 0; student != null && i < student.solos().size(); i++) {
        String soloId = student.solos().get(i).facts().soloId();
        for (Figure.InSolo solo : figure.ofStudent()) {
          if (solo.soloId().equals(soloId)) {
            row(grid, source.names().solo(student, i), Text.of("figure.you"), solo);
          }
        }
      }
      for (Figure.InSolo solo : figure.ofCorpus()) {
        SoloFacts facts = rows().corpusSolo(solo.soloId()).orElse(null);
        if (facts != null) {
          row(
              grid,
              StudentFigures.corpusSolo(facts.title(), "", solo.soloId()),
              facts.performer().isBlank()
                  ? Text.of("value.dash")
                  : FileText.withoutDirection(facts.performer()),
              solo);
        }
      }
      return grid.size() == 0 ? null : grid.build();
    }

    private void row(Grid.Builder grid, String solo, String player, Figure.InSolo found) {
      grid.row(
          solo,
          player,
          found.bars().stream().map(FileText::withoutDirection).collect(Collectors.joining(", "))
              + (found.places() > found.bars().size() ? ", \u2026" : ""),
          source.numbers().count(found.places()));
    }

    String more() {
      int left = figure.row().corpusSolos() - figure.ofCorpus().size();
      return left == 0 ? "" : Text.of("figure.more", counted(left, "corpus solo"));
    }
  }
}
