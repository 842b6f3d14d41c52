package phrasecensus.music.likeness;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.IntStream;

/**
 * Which player, and which group, a solo would be given to by the others: how well the compared
 * statistics tell players and groups apart. Nothing that is asked about has a part in what answers:
 * the solo is left out where its player is asked for, and all solos of its player where its group
 * is. Only the slopes that take tempo out, two numbers a statistic, come from all solos.
 *
 * <p>Of a player: solos vary about their player's mean with one covariance, and players' means
 * about that of all players with another; both are shrunk ({@link ShrunkCovariance}). The solo goes
 * to the player under whom it is most probable, a mean of few solos being drawn toward the others'
 * (a linear discriminant with random means; S. Ioffe, "Probabilistic linear discriminant analysis",
 * Computer Vision - ECCV 2006, 531-542, from memory). Every player counts alike.
 *
 * <p>Of a group: the one whose mean is nearest in the whitened space, groups counting by their
 * solos as in a linear discriminant (R. A. Fisher, "The use of multiple measurements in taxonomic
 * problems", Annals of Eugenics 7 (1936) 179-188, from memory).
 */
public final class Attribution {
  /** Solos that a player must have, so that two are left. */
  public static final int LEAST_SOLOS_OF_PLAYER = 3;

  /** Solos that a group must have. */
  public static final int LEAST_SOLOS_OF_GROUP = 6;

  /**
   * The least part of the variance of players' means that is theirs and no chance of their solos.
   */
  private static final double LEAST_OWN = .01;

  private final List<PlacedSolo> solos;
  private final Map<String, List<PlacedSolo>> players = new TreeMap<>();
  private final Map<String, List<PlacedSolo>> groups = new TreeMap<>();

  /**
   * @param solos in an order that does not depend on how they were read
   */
  public Attribution(List<PlacedSolo> solos) {
    this.solos = List.copyOf(solos);
    for (PlacedSolo solo : solos) {
      if (!solo.player().isEmpty()) {
        players.computeIfAbsent(solo.player(), name -> new ArrayList<>()).add(solo);
      }
      if (!solo.group().isEmpty()) {
        groups.computeIfAbsent(solo.group(), name -> new ArrayList<>()).add(solo);
      }
    }
  }

  /**
   * An answer.
   *
   * @param actual whose the solo is
   * @param given whom it was given to
   * @param place of the actual one among the candidates; 1 where the answer is right
   * @param candidates how many there were
   * @param distance of the solo from what is expected of the one given; 1 is usual for a solo of it
   * @param actualDistance the same from the actual one
   * @param statistics that the solo has
   */
  public record Answer(
      String actual,
      String given,
      int place,
      int candidates,
      double distance,
      double actualDistance,
      int statistics) {
    /** True when the solo was given to whom it belongs. */
    public boolean isRight() {
      return place == 1;
    }
  }

  /** One who may have played it: lower is more probable. */
  private record Candidate(String name, double improbability, double squared) {}

  /**
   * The player of a solo by all other solos; empty where its player has fewer than {@value
   * #LEAST_SOLOS_OF_PLAYER} solos, there is no other player with two, too few solos tell how
   * players vary, or it shares too few statistics with the others.
   */
  public Optional<Answer> player(PlacedSolo solo) {
    if (players.getOrDefault(solo.player(), List.of()).size() < LEAST_SOLOS_OF_PLAYER) {
      return Optional.empty();
    }
    List<PlacedSolo> others = solos.stream().filter(each -> each != solo).toList();
    return LikenessSpace.ofPlayers(others).flatMap(space -> player(solo, others, space));
  }

  private Optional<Answer> player(PlacedSolo solo, List<PlacedSolo> others, LikenessSpace space) {
    int[] has = present(solo, space);
    if (has.length < LikenessSpace.LEAST_SHARED) {
      return Optional.empty();
    }
    double[] all = LikenessSpace.mean(others, new double[solo.places().length]);
    List<double[]> means = new ArrayList<>();
    List<List<PlacedSolo>> clusters =
        List.copyOf(LikenessSpace.clusters(others, LikenessSpace.About.PLAYER));
    double chance = 0;
    for (List<PlacedSolo> cluster : clusters) {
      means.add(scaled(LikenessSpace.mean(cluster, all), space));
      chance += 1.0 / cluster.size() / clusters.size();
    }
    double[] middle = middle(means);
    double[][] between = LikenessSpace.part(between(means, middle, chance, space), has);
    double[][] within = LikenessSpace.part(space.covariance(), has);
    double[] place = part(scaled(solo.places(), space), has);
    double[] centre = part(middle, has);
    Map<Integer, Expected> bySize = new HashMap<>();
    List<Candidate> candidates = new ArrayList<>();
    for (int i = 0; i < clusters.size(); i++) {
      List<PlacedSolo> own = clusters.get(i);
      if (own.size() >= LEAST_SOLOS_OF_PLAYER - 1 && !own.get(0).player().isEmpty()) {
        candidates.add(
            bySize
                .computeIfAbsent(own.size(), size -> Expected.of(within, between, size))
                .candidate(own.get(0).player(), place, part(means.get(i), has), centre));
      }
    }
    return answer(solo.player(), candidates, has.length);
  }

  private static double[] middle(List<double[]> means) {
    double[] middle = new double[means.get(0).length];
    for (double[] mean : means) {
      for (int k = 0; k < middle.length; k++) {
        middle[k] += mean[k] / means.size();
      }
    }
    return middle;
  }

  /** Covariance of players' own means: that of the means of their solos, less what is chance. */
  private static double[][] between(
      List<double[]> means, double[] middle, double chance, LikenessSpace space) {
    Cholesky within = Cholesky.of(space.covariance());
    List<double[]> white = new ArrayList<>();
    for (double[] mean : means) {
      white.add(within.whitened(difference(mean, middle)));
    }
    double[][] matrix = ShrunkCovariance.of(white).matrix();
    double unbiased = means.size() / (means.size() - 1.0);
    double variance = 0;
    for (int k = 0; k < matrix.length; k++) {
      variance += matrix[k][k] * unbiased / matrix.length;
    }
    double own = Math.max(LEAST_OWN, 1 - chance / variance) * unbiased;
    for (double[] row : matrix) {
      for (int k = 0; k < row.length; k++) {
        row[k] *= own;
      }
    }
    return within.unwhitened(matrix);
  }

  /** What is expected of a further solo of a player with so many. */
  private record Expected(double[][] between, Cholesky ofMean, Cholesky ofSolo) {
    static Expected of(double[][] within, double[][] between, int solos) {
      int size = within.length;
      double[][] ofMean = new double[size][size];
      for (int i = 0; i < size; i++) {
        for (int j = 0; j < size; j++) {
          ofMean[i][j] = between[i][j] + within[i][j] / solos;
        }
      }
      Cholesky mean = Cholesky.of(ofMean);
      double[][] ofSolo = new double[size][size];
      for (int j = 0; j < size; j++) {
        double[] known = mean.solve(between[j]);
        for (int i = 0; i < size; i++) {
          ofSolo[i][j] = within[i][j] + between[i][j] - product(between[i], known);
        }
      }
      return new Expected(between, mean, Cholesky.of(ofSolo));
    }

    Candidate candidate(String name, double[] place, double[] mean, double[] centre) {
      double[] known = ofMean.solve(difference(mean, centre));
      double[] away = new double[place.length];
      for (int k = 0; k < away.length; k++) {
        away[k] = place[k] - centre[k] - product(between[k], known);
      }
      double squared = ofSolo.squaredLength(away);
      return new Candidate(name, squared + ofSolo.logDeterminant(), squared);
    }
  }

  /**
   * The groups of a player's solos by all solos of others, in the order of those that have an
   * answer; empty as for {@link #player}. A solo whose group has fewer than {@value
   * #LEAST_SOLOS_OF_GROUP} solos, or none by another player, has none.
   *
   * @param own solos by one player, or one whose player is not known
   */
  public Map<PlacedSolo, Answer> groups(List<PlacedSolo> own) {
    String player = own.get(0).player();
    List<PlacedSolo> others =
        solos.stream()
            .filter(each -> player.isEmpty() ? each != own.get(0) : !each.player().equals(player))
            .toList();
    Optional<LikenessSpace> space = LikenessSpace.ofPlayers(others);
    Map<PlacedSolo, Answer> answers = new LinkedHashMap<>();
    if (space.isEmpty()) {
      return answers;
    }
    Map<String, List<PlacedSolo>> left = new TreeMap<>();
    for (PlacedSolo each : others) {
      if (groups.getOrDefault(each.group(), List.of()).size() >= LEAST_SOLOS_OF_GROUP) {
        left.computeIfAbsent(each.group(), name -> new ArrayList<>()).add(each);
      }
    }
    double[] all = LikenessSpace.mean(others, new double[own.get(0).places().length]);
    Map<String, double[]> means = new TreeMap<>();
    left.forEach(
        (name, each) -> means.put(name, scaled(LikenessSpace.mean(each, all), space.get())));
    for (PlacedSolo solo : own) {
      int[] has = present(solo, space.get());
      if (!left.containsKey(solo.group()) || has.length < LikenessSpace.LEAST_SHARED) {
        continue;
      }
      Cholesky within = Cholesky.of(LikenessSpace.part(space.get().covariance(), has));
      double[] place = part(scaled(solo.places(), space.get()), has);
      List<Candidate> candidates = new ArrayList<>();
      means.forEach(
          (name, mean) -> {
            double squared = within.squaredLength(difference(place, part(mean, has)));
            candidates.add(
                new Candidate(name, squared - 2 * Math.log(left.get(name).size()), squared));
          });
      answer(solo.group(), candidates, has.length).ifPresent(each -> answers.put(solo, each));
    }
    return answers;
  }

  private static Optional<Answer> answer(
      String actual, List<Candidate> candidates, int statistics) {
    if (candidates.size() < 2) {
      return Optional.empty();
    }
    candidates.sort(
        Comparator.comparingDouble(Candidate::improbability).thenComparing(Candidate::name));
    int place = 0;
    while (!candidates.get(place).name.equals(actual)) {
      place++;
    }
    return Optional.of(
        new Answer(
            actual,
            candidates.get(0).name,
            place + 1,
            candidates.size(),
            Math.sqrt(candidates.get(0).squared / statistics),
            Math.sqrt(candidates.get(place).squared / statistics),
            statistics));
  }

  /** Places, among the statistics of the space, of those that the solo has. */
  private static int[] present(PlacedSolo solo, LikenessSpace space) {
    int[] kept = space.kept();
    return IntStream.range(0, kept.length)
        .filter(k -> !Double.isNaN(solo.places()[kept[k]]))
        .toArray();
  }

  private static double[] scaled(double[] places, LikenessSpace space) {
    double[] scaled = new double[space.kept().length];
    for (int k = 0; k < scaled.length; k++) {
      scaled[k] = places[space.kept()[k]] / space.deviation()[k];
    }
    return scaled;
  }

  private static double[] part(double[] figures, int[] places) {
    return Arrays.stream(places).mapToDouble(k -> figures[k]).toArray();
  }

  private static double[] difference(double[] first, double[] second) {
    double[] difference = new double[first.length];
    for (int k = 0; k < first.length; k++) {
      difference[k] = first[k] - second[k];
    }
    return difference;
  }

  private static double product(double[] first, double[] second) {
    double sum = 0;
    for (int k = 0; k < first.length; k++) {
      sum += first[k] * second[k];
    }
    return sum;
  }
}
