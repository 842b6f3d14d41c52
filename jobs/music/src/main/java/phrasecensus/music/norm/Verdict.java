package phrasecensus.music.norm;

/** Where a student's value lies with regard to the middle half of a group. */
public enum Verdict {
  /** From the lower to the upper quartile of the group, ends included. */
  INSIDE_BAND,
  /** Below the lower quartile. */
  BELOW,
  /** Above the upper quartile. */
  ABOVE,
  /** The student's value is undefined or rests on too little. */
  TOO_LITTLE,
  /** The group has no middle band: fewer than eleven of its solos have a value. */
  NO_NORM;

  /** True for {@link #BELOW} and {@link #ABOVE}. */
  public boolean isOutside() {
    return this == BELOW || this == ABOVE;
  }
}
