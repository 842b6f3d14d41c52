package phrasecensus.cli;

import java.util.HashMap;
import java.util.Map;
import phrasecensus.music.analysis.SoloAnalysis;
import phrasecensus.music.harmony.NoteHarmony;
import phrasecensus.music.landing.Landing;
import phrasecensus.music.statistic.OutsideNotes;
import phrasecensus.readers.musicxml.AnnotatedScoreWriter.Annotations;
import phrasecensus.readers.musicxml.AnnotatedScoreWriter.PhraseSpan;

/** What an annotated copy says of a solo. */
final class SoloAnnotations {
  private SoloAnnotations() {}

  /**
   * Every phrase, the degree of every landing over its chord, and the outside notes that no step
   * explains. A landing without a chord has no text.
   */
  static Annotations of(SoloAnalysis analysis) {
    Map<Integer, String> degrees = new HashMap<>();
    for (Landing landing : analysis.landings()) {
      NoteHarmony harmony = analysis.harmony().get(landing.noteIndex());
      if (harmony.degree() != null) {
        degrees.put(landing.noteIndex(), harmony.degree().name());
      }
    }
    return new Annotations(
        analysis.phrases().stream()
            .map(phrase -> new PhraseSpan(phrase.firstNote(), phrase.lastNote()))
            .toList(),
        degrees,
        OutsideNotes.unexplained(analysis));
  }
}
