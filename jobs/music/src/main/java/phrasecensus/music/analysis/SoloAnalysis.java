package phrasecensus.music.analysis;

import java.util.List;
import phrasecensus.music.form.SoloForm;
import phrasecensus.music.harmony.NoteHarmony;
import phrasecensus.music.harmony.TonalCentre;
import phrasecensus.music.harmony.TonalCentreSpan;
import phrasecensus.music.landing.Landing;
import phrasecensus.music.phrase.Phrase;
import phrasecensus.music.score.Solo;

/**
 * A solo with all that was heard in it; statistics are functions of this.
 *
 * @param solo the solo as read
 * @param centres tonal centres, in order, covering the solo without gaps
 * @param centre the centre of the whole solo
 * @param harmony one element a note, in the order of {@link Solo#notes()}
 * @param phrases in order; every note is in exactly one
 * @param landings in order of note; a note stands at most once
 * @param form choruses and sections, as far as they are known
 */
public record SoloAnalysis(
    Solo solo,
    List<TonalCentreSpan> centres,
    TonalCentre centre,
    List<NoteHarmony> harmony,
    List<Phrase> phrases,
    List<Landing> landings,
    SoloForm form) {
  public SoloAnalysis {
    centres = List.copyOf(centres);
    harmony = List.copyOf(harmony);
    phrases = List.copyOf(phrases);
    landings = List.copyOf(landings);
  }
}
