package phrasecensus.music.norm;

/**
 * How far a student's value lies from the middle half of a group, and how much that is worth.
 *
 * @param student the value and its norm
 * @param verdict where the value lies
 * @param rank where it stands among the values of the group; null when the value is undefined or
 *     the group has none
 * @param size distance beyond the middle band in units of the group's spread: 0 inside it, positive
 *     outside; null when there is no verdict on the value, or when the group has no spread
 * @param discounted {@code size} times {@link Departures#reliability} of the student's n; null with
 *     {@code size}
 * @param spread the unit of {@code size}
 */
public record Departure(
    StudentValue student,
    Verdict verdict,
    PercentileRank rank,
    Double size,
    Double discounted,
    Spread spread) {
  public String key() {
    return student.key();
  }

  public String facet() {
    return student.facet();
  }

  /**
   * True when the student's interval lies wholly outside the middle band, so that the departure is
   * more than a play of chance; false when it does not or there is no interval.
   */
  public boolean isClear() {
    return verdict.isOutside()
        && student.interval() != null
        && student.interval().isApartFrom(student.norm().p25(), student.norm().p75());
  }
}
