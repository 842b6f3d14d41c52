package phrasecensus.readers.musicxml;

import phrasecensus.readers.ProblemLog;
import phrasecensus.readers.ReadResult;
import phrasecensus.readers.ReadSettings;

/** From a MusicXML document to a solo. */
public final class MusicXmlSolos {
  private MusicXmlSolos() {}

  /**
   * Reads a document.
   *
   * @param document an uncompressed MusicXML document
   * @param format what goes into the result's format
   * @throws phrasecensus.readers.Refusal if it cannot be read or is beyond a limit
   * @throws ArithmeticException if a time in it does not fit 64-bit fractions
   */
  public static ReadResult read(
      byte[] document, String format, ReadSettings settings, ProblemLog problems) {
    ScoreReading score = MusicXmlReader.read(document, settings, problems);
    SoloDistiller.Distilled distilled = SoloDistiller.distil(score, settings, problems);
    return new ReadResult(
        ReadResult.Outcome.READ,
        distilled.solo(),
        "",
        problems.problems(),
        format,
        score.encoding(),
        score.parts().size(),
        distilled.notesInStacks(),
        distilled.notesInOtherVoices());
  }
}
