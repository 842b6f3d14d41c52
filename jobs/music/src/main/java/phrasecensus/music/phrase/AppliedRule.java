package phrasecensus.music.phrase;

import phrasecensus.music.phrase.ByMaterialRule.Reason;
import phrasecensus.music.score.Solo;

/**
 * The rule that found the phrases of a solo, and why it was this one.
 *
 * @param rule itself never one that chooses
 * @param reason why it applies
 */
public record AppliedRule(PhraseRule rule, Reason reason) {
  /**
   * What a rule that was asked for comes to on a solo. Where it is the rule of marks and the solo
   * has none, the rule is chosen by the music.
   */
  public static AppliedRule of(PhraseRule asked, Solo solo) {
    if (asked instanceof MarkedRule marked && !marked.isMarked(solo)) {
      // One phrase of sixty bars is none.
      return new AppliedRule(
          ByMaterialRule.DEFAULT.ruleFor(ByMaterialRule.DEFAULT.reason(solo)), Reason.NO_MARKS);
    }
    if (asked instanceof ByMaterialRule choice) {
      Reason reason = choice.reason(solo);
      return new AppliedRule(choice.ruleFor(reason), reason);
    }
    return new AppliedRule(asked, asked instanceof GivenRule ? Reason.MARKS : Reason.STUDY);
  }
}
