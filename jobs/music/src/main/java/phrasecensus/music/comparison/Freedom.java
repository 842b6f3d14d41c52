package phrasecensus.music.comparison;

/**
 * The most degrees of freedom that a test may have: values of few solos are not normal enough for
 * more. Found by leaving players of real solos out one at a time.
 */
public final class Freedom {
  /** No limit. */
  public static final int UNLIMITED = Integer.MAX_VALUE;

  private static final int MUCH = 100;

  private Freedom() {}

  /**
   * @param solos of the student that the value rests on, at least 1
   * @param ofOthers degrees of freedom of the other groups; 0 where there are none
   */
  public static int cap(int solos, int ofOthers) {
    if (ofOthers < OtherGroups.LEAST_FREEDOM) {
      return solos == 1 ? 8 : solos == 2 ? 10 : 15;
    }
    if (solos > 2) {
      return UNLIMITED;
    }
    if (ofOthers < MUCH) {
      return solos == 1 ? 10 : 15;
    }
    return solos == 1 ? 15 : 20;
  }
}
