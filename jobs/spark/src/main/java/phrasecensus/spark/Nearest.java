package phrasecensus.spark;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** Keeps the first few of what it is given, in an order that does not depend on when they come. */
final class Nearest<T> implements Serializable {
  private static final long serialVersionUID = 1L;

  private final int most;
  private final Comparator<T> order;
  private final ArrayList<T> kept = new ArrayList<>();

  /**
   * @param most how many are kept, at least 1
   * @param order without ties between different ones
   */
  Nearest(int most, Comparator<T> order) {
    this.most = most;
    this.order = order;
  }

  void add(T one) {
    int place = kept.size();
    while (place > 0 && order.compare(one, kept.get(place - 1)) < 0) {
      place--;
    }
    if (place < most) {
      kept.add(place, one);
      if (kept.size() > most) {
        kept.remove(most);
      }
    }
  }

  /** Those kept, the first of the order first. */
  List<T> inOrder() {
    return List.copyOf(kept);
  }
}
