package phrasecensus.music.comparison;

import java.io.Serializable;
import java.util.Optional;

/**
 * What a student is held against in one statistic: a group of a corpus with all that is known of
 * it.
 */
public final class GroupComparison implements Serializable {
  private static final long serialVersionUID = 1L;

  private final ShippedFigures shipped;
  private final TempoScale tempoScale;
  private final TempoSlopes slopes;
  private final boolean tempoTakenOut;
  private final OtherGroups others;
  private final PredictiveMixture mixture;
  private final boolean onePlayer;
  private final int solos;
  private final int players;
  private final int unnamed;
  private final double meanVariance;
  private final TempoBand band;
  private final double[] omega;

  GroupComparison(
      ShippedFigures shipped,
      TempoScale tempoScale,
      TempoSlopes slopes,
      boolean tempoTakenOut,
      OtherGroups others,
      Optional<PredictiveMixture> mixture,
      boolean onePlayer,
      int solos,
      int players,
      int unnamed,
      double meanVariance,
      double[] residuals,
      double[] omega) {
    this.shipped = shipped;
    this.tempoScale = tempoScale;
    this.slopes = slopes;
    this.tempoTakenOut = tempoTakenOut;
    this.others = others;
    this.mixture = mixture.orElse(null);
    this.onePlayer = onePlayer;
    this.solos = solos;
    this.players = players;
    this.unnamed = unnamed;
    this.meanVariance = meanVariance;
    this.band = TempoBand.of(residuals);
    this.omega = omega.clone();
  }

  ShippedFigures shipped() {
    return shipped;
  }

  TempoScale tempoScale() {
    return tempoScale;
  }

  /** How the statistic goes with tempo here; {@link TempoSlopes#NONE} where it was left in. */
  public TempoSlopes slopes() {
    return slopes;
  }

  /** True where tempo was taken out. */
  public boolean isTempoTakenOut() {
    return tempoTakenOut;
  }

  /** What the other groups say. */
  public OtherGroups others() {
    return others;
  }

  /** Where a further player's solos would lie; empty where there is no ground for a test. */
  public Optional<PredictiveMixture> mixture() {
    return Optional.ofNullable(mixture);
  }

  /**
   * True where all solos are one player's: a verdict then speaks of further solos of this player.
   */
  public boolean isOnePlayer() {
    return onePlayer;
  }

  /** Solos of the group with a value. */
  public int solos() {
    return solos;
  }

  /** Their players, those without a name one by one. */
  public int players() {
    return players;
  }

  /**
   * Solos with a value and no player's name: each counts as a player of its own, so that more is
   * found than should be where one player made several of them.
   */
  public int unnamed() {
    return unnamed;
  }

  /** Mean relative variance of the group's solos; NaN without any. */
  public double meanVariance() {
    return meanVariance;
  }

  /** The middle half of the group, tempo taken out. */
  public TempoBand band() {
    return band;
  }

  /**
   * How much would be found beside a larger group of such players; empty where there is no ground
   * for a test.
   *
   * @param solosTimes how many times as many solos each player has
   * @param playersTimes how many times as many players there are
   */
  public Optional<Planning> planning(double solosTimes, double playersTimes) {
    return mixture()
        .map(
            known ->
                new Planning(
                    known.correlation(),
                    known.centreVariance(omega, solosTimes, playersTimes, others),
                    known.freedom() + (int) Math.round(solos * (solosTimes * playersTimes - 1)),
                    others.freedom()));
  }

  /** How much is found with how many solos; empty where there is no ground for a test. */
  public Optional<Planning> planning() {
    return mixture().map(known -> Planning.of(known, others));
  }
}
