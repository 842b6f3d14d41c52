package phrasecensus.music.context;

import java.util.ArrayList;
import java.util.List;
import phrasecensus.music.harmony.NoteHarmony;
import phrasecensus.music.phrase.Phrase;
import phrasecensus.music.score.Note;
import phrasecensus.music.score.Solo;
import phrasecensus.music.time.Fraction;

/**
 * A phrase and a context that it touches. A note that anticipates a chord is heard where that chord
 * begins.
 *
 * @param phrase index of the phrase
 * @param context index of the context
 * @param share part of the phrase's time, first onset to end of last note, that lies in it, 0 to 1
 * @param over true when the phrase has a note over each chord of the context; for one of bars when
 *     half of the phrase's time or more lies in it
 * @param endsIn true when its last note is heard in the context
 * @param endPlace what the chord of its last note is in the context, as in {@code V}; null where it
 *     does not end in it and for a context of bars
 */
public record PhraseContext(
    int phrase, int context, double share, boolean over, boolean endsIn, String endPlace) {

  /**
   * Every phrase with every context that it touches, in order of phrase, then of context.
   *
   * @param harmony one element a note
   * @param phrases in order
   * @param contexts in order of onset
   */
  public static List<PhraseContext> find(
      Solo solo, List<NoteHarmony> harmony, List<Phrase> phrases, List<HarmonicContext> contexts) {
    List<PhraseContext> found = new ArrayList<>();
    // How far the contexts up to each one reach: those before can be passed over.
    List<Fraction> reached = new ArrayList<>();
    for (HarmonicContext context : contexts) {
      reached.add(
          reached.isEmpty()
              ? context.end()
              : Fraction.larger(reached.get(reached.size() - 1), context.end()));
    }
    int from = 0;
    for (Phrase phrase : phrases) {
      List<Fraction> heard = new ArrayList<>();
      for (Note note : solo.notes().subList(phrase.firstNote(), phrase.lastNote() + 1)) {
        NoteHarmony own = harmony.get(note.index());
        heard.add(own.anticipated() ? own.chord().onset() : note.onset());
      }
      while (from < contexts.size() && !reached.get(from).isAfter(phrase.onset())) {
        from++;
      }
      for (int i = from; i < contexts.size(); i++) {
        HarmonicContext context = contexts.get(i);
        if (!context.onset().isBefore(phrase.end())) {
          break;
        }
        Fraction both =
            Fraction.smaller(context.end(), phrase.end())
                .minus(Fraction.larger(context.onset(), phrase.onset()));
        if (both.isPositive()) {
          found.add(of(phrase, i, context, both.dividedBy(phrase.length()).toDouble(), heard));
        }
      }
    }
    return List.copyOf(found);
  }

  private static PhraseContext of(
      Phrase phrase, int index, HarmonicContext context, double share, List<Fraction> heard) {
    Fraction last = heard.get(heard.size() - 1);
    boolean endsIn = isIn(last, context.onset(), context.end());
    String place = null;
    boolean over = context.kind().isOfBars() ? share >= 0.5 : true;
    for (HarmonicContext.Part part : context.parts()) {
      over &= heard.stream().anyMatch(moment -> isIn(moment, part.onset(), part.end()));
      if (isIn(last, part.onset(), part.end())) {
        place = part.place();
      }
    }
    return new PhraseContext(phrase.index(), index, share, over, endsIn, place);
  }

  private static boolean isIn(Fraction moment, Fraction onset, Fraction end) {
    return !moment.isBefore(onset) && moment.isBefore(end);
  }
}
