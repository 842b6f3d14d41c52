package phrasecensus.report.view;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import phrasecensus.report.find.FoundPhrase;
import phrasecensus.report.rows.SoloFacts;
import phrasecensus.report.rows.SoloLine;
import phrasecensus.report.rows.StudyRows;
import phrasecensus.report.wording.FileText;
import phrasecensus.report.wording.MusicText;
import phrasecensus.report.wording.Text;

/**
 * The page of phrases that somebody looked for.
 *
 * @param title what they have
 * @param number how many are shown of how many
 * @param conditions as they were written
 * @param excerpts the phrases with their bars and their sound
 */
public record PhrasesPage(
    Shell shell, String title, String number, List<String> conditions, List<Excerpt> excerpts) {
  public PhrasesPage {
    conditions = List.copyOf(conditions);
    excerpts = List.copyOf(excerpts);
  }

  static PhrasesPage of(
      PageSource source,
      Shell shell,
      String title,
      List<String> conditions,
      List<FoundPhrase> shown,
      int all) {
    StudyRows rows = source.rows();
    Set<String> ids = new TreeSet<>();
    shown.forEach(phrase -> ids.add(phrase.soloId()));
    rows.prepareSolos(ids);
    rows.prepareLines(ids);
    List<Excerpt> excerpts = new ArrayList<>();
    for (FoundPhrase phrase : shown) {
      SoloFacts facts = rows.corpusSolo(phrase.soloId()).orElse(null);
      SoloLine line = rows.corpusLine(phrase.soloId());
      SoloLine.PhraseSpan span = line.phrase(phrase.phraseIndex()).orElse(null);
      if (facts != null && span != null) {
        excerpts.add(
            Excerpt.of(
                source.scores(),
                "found-" + (excerpts.size() + 1),
                (excerpts.size() + 1)
                    + ". "
                    + Text.of(
                        "student.apart.excerpt",
                        StudentFigures.corpusSolo(facts.title(), facts.performer(), facts.soloId()),
                        StudentFigures.bars(span)),
                told(phrase),
                facts,
                line,
                span));
      }
    }
    return new PhrasesPage(
        shell,
        title,
        Text.of(
            "find.number", source.numbers().count(excerpts.size()), source.numbers().count(all)),
        conditions.stream().map(FileText::printable).toList(),
        excerpts);
  }

  private static String told(FoundPhrase phrase) {
    List<String> parts = new ArrayList<>();
    if (phrase.lastDegree() != null) {
      parts.add(Text.of("find.told.end", MusicText.degree(phrase.lastDegree())));
    }
    if (!phrase.contexts().isEmpty()) {
      parts.add(
          Text.of(
              "find.told.over",
              phrase.contexts().stream()
                  .map(PhrasesPage::context)
                  .collect(Collectors.joining(", "))));
    }
    parts.add(Text.of("find.told.level", phrase.difficulty()));
    return String.join(" \u00b7 ", parts);
  }

  private static String context(String kindAndMode) {
    String[] both = kindAndMode.split(" ");
    return Text.of("find.mode." + both[1], Text.of("find.context." + both[0]));
  }
}
