package phrasecensus.music.analysis;

import java.util.List;
import phrasecensus.music.form.SoloForm;
import phrasecensus.music.harmony.CentreScale;
import phrasecensus.music.harmony.NoteHarmony;
import phrasecensus.music.harmony.TonalCentre;
import phrasecensus.music.harmony.TonalCentreSpan;
import phrasecensus.music.landing.Landing;
import phrasecensus.music.landing.RestingNote;
import phrasecensus.music.phrase.AppliedRule;
import phrasecensus.music.phrase.Phrase;
import phrasecensus.music.rest.Stretch;
import phrasecensus.music.score.Solo;

/**
 * A solo with all that was heard in it; statistics are functions of this.
 *
 * @param solo the solo as read
 * @param centres tonal centres, in order, covering the solo without gaps
 * @param centre the centre of the whole solo
 * @param scale the scale of that centre; null where only its chords tell it
 * @param centreSource where that centre comes from
 * @param harmony one element a note, in the order of {@link Solo#notes()}
 * @param phrases in order; every note is in exactly one
 * @param landings in order of note; a note stands at most once
 * @param form choruses and sections, as far as they are known
 * @param stretches of the line from breath to breath, in order; every note is in exactly one
 * @param rule what found the phrases, and why it was this rule
 * @param restingNotes notes that the line comes to rest on, whatever cuts it into phrases, in order
 */
public record SoloAnalysis(
    Solo solo,
    List<TonalCentreSpan> centres,
    TonalCentre centre,
    CentreScale scale,
    TonalCentreSpan.Source centreSource,
    List<NoteHarmony> harmony,
    List<Phrase> phrases,
    List<Landing> landings,
    SoloForm form,
    List<Stretch> stretches,
    AppliedRule rule,
    List<RestingNote> restingNotes) {
  public SoloAnalysis {
    centres = List.copyOf(centres);
    harmony = List.copyOf(harmony);
    phrases = List.copyOf(phrases);
    landings = List.copyOf(landings);
    stretches = List.copyOf(stretches);
    restingNotes = List.copyOf(restingNotes);
  }
}
