package phrasecensus.music.comparison;

import java.util.Locale;

/**
 * The scale on which values of a statistic are compared: one on which solos vary about alike
 * whatever their value.
 */
public enum Scale {
  /**
   * For shares, by the arc sine of the root of (x n + 3/8) / (n + 3/4): F. J. Anscombe, "The
   * transformation of Poisson, binomial and negative-binomial data", Biometrika 35 (1948) 246-254
   * (from memory).
   */
  SHARE {
    @Override
    public double forward(double value, double n) {
      return Math.asin(Math.sqrt((value * n + 0.375) / (n + 0.75)));
    }

    @Override
    public double backward(double y, double n) {
      double sine = Math.sin(Math.min(Math.PI / 2, Math.max(0, y)));
      return Math.min(1, Math.max(0, (sine * sine * (n + 0.75) - 0.375) / n));
    }
  },
  /** Natural logarithm, for lengths and densities. */
  LOG {
    @Override
    public double forward(double value, double n) {
      return Math.log(value);
    }

    @Override
    public double backward(double y, double n) {
      return Math.exp(y);
    }
  },
  /** Square root, for figures that begin at 0 and may be 0. */
  ROOT {
    @Override
    public double forward(double value, double n) {
      return Math.sqrt(value);
    }

    @Override
    public double backward(double y, double n) {
      double root = Math.max(0, y);
      return root * root;
    }
  },
  /** The value itself. */
  PLAIN {
    @Override
    public double forward(double value, double n) {
      return value;
    }

    @Override
    public double backward(double y, double n) {
      return Math.max(0, y);
    }
  };

  /**
   * A value on the scale.
   *
   * @param value in the unit of the statistic
   * @param n of how many things it is the share; only {@link #SHARE} looks at it
   * @return not finite where the value has no place on the scale
   */
  public abstract double forward(double value, double n);

  /**
   * The value at a place of the scale, held inside the range of the statistic.
   *
   * @param y place on the scale
   * @param n as for {@link #forward}
   */
  public abstract double backward(double y, double n);

  /** Its name in the statistics catalogue. */
  public String key() {
    return name().toLowerCase(Locale.ROOT);
  }

  /**
   * The scale of that name in the catalogue.
   *
   * @throws IllegalArgumentException if there is none
   */
  public static Scale named(String key) {
    for (Scale scale : values()) {
      if (scale.key().equals(key)) {
        return scale;
      }
    }
    throw new IllegalArgumentException("Invalid scale of a statistic: " + key);
  }
}
